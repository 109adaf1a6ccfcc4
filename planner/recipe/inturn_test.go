package recipe

import (
	"strings"
	"testing"
)

const pork = "Shoulder\nServes 6\n1.8 kg pork shoulder\n2 tbsp salt\n\n"

// TestHowPeopleSayTimes: each class of saying it, and the lines that must stand in the reading; by hand.
func TestHowPeopleSayTimes(t *testing.T) {
	for _, c := range []struct{ name, text, want, not string }{
		{"two heats in turn, without the oven's word", pork + "Rub the pork with the salt. 220 for 30 min, then 130 for 5 h.",
			"watch, 5 h 30 min; oven 220 °C, after 30 min 130 °C", ""},
		{"two heats in turn, with scales", pork + "Roast at 240 °C for 20 min, then at 160 °C for 2 h.",
			"watch, 2 h 20 min; oven 240 °C, after 20 min 160 °C", ""},
		{"another way is not in turn", pork + "Roast the pork at 150 °C for 4 h or at 130 °C for 6 " +
			"h.", "watch, 4 h;", "10 h"},
		{"wants, in the cold", pork + "Rub the pork with the salt. It wants two hours in the fridge. " +
			"Roast for 2 h at 160 °C.",
			"unattended, 2 h; refrigerator", ""},
		{"needs, before what is not done yet", pork + "Roast at 160 °C for 2 h. It needs ten minutes before you cut it.",
			"It needs ten minutes before you cut it [unattended, 10 min", ""},
		{"needs another, in the oven", pork + "Roast at 160 °C for 2 h. It needs another 20 " +
			"minutes.", "20 min; oven 160 °C", ""},
		{"given to stand", pork + "Roast at 160 °C for 2 h. Give it half an hour's rest before carving.",
			"Give it half an hour's rest before carving [unattended, 30 min", ""},
		{"until needed, up to so long", "Pots\nServes 4\n300 ml cream\n50 g sugar\n\nBoil the cream and " +
			"sugar for 3 minutes. " +
			"Pour into glasses. Fridge till needed, up to 2 days.", "keeps 2 days", "unattended"},
		{"wedges are one each", "Cake\nMakes 8 wedges\n3 eggs\n150 g sugar\n\nWhisk and bake at 180 °C for 30 minutes.",
			"Cake, for 8", "how many covers"},
		{"semicolons", "Crumble\nServes 4\n600 g plums; 2 tbsp sugar; a little butter\n\nBake at 180 °C for 30 minutes.",
			"2 tbsp | sugar", ""},
		{"a tin that is lined", "Cake\nServes 8\n3 eggs\n150 g sugar\n\nLine a baking tin. Whisk the eggs " +
			"with the sugar, pour into " +
			"the tin and bake at 180 °C for 30 minutes.", "baking dish", ""},
		{"chat messages", "[18:02] Priya: dal for 4\n[18:02] Priya: 250 g lentils, 1 onion\n[18:03] " +
			"Priya: fry the onion in oil " +
			"for 8 min\n[18:04] Priya: add the lentils and simmer 25 min", "dal, for 4", "Priya"},
		{"a note's dashes", "Fool\nServes 4\n\n– rhubarb 500 g\n– sugar 100 g\n– stew rhubarb + sugar, " +
			"low, 15 min\n– serve cold",
			"Stew rhubarb + sugar, low, 15 min [watch, 15 min; burner]", ""},
		{"clutter of a page", "Jump to recipe   Print\n★★★★☆ 4.6 (182)\nSoup\nBy Ana | Updated October " +
			"2024\nPrep 15 mins | Serves 4" +
			"\n\nIngredients\nAdvertisement\n1 kg leeks\n1 l stock\n\nMethod\nSimmer for 20 " +
			"minutes.", "Soup, for 4", "| By Ana"},
		{"ingredients in a letter", "Hello Tom,\n\nYou asked for the ribs. For eight of us I get 3 kg of " +
			"pork ribs, 4 tbsp sugar and " +
			"200 ml sauce. Brush the ribs with the sauce and grill for 40 minutes.\n\nYours, Ed", "3 kg | pork ribs", ""},
		{"a list in the sentence that says for how many", "Hello Tom,\n\nthe dumplings! For 24 of them you need 300 g " +
			"flour, 150 ml water and 400 g minced pork.\n\nMix the flour and water. Fill with the pork and steam for 12 " +
			"minutes.\n\nYours, Ed", "400 g | minced pork", ""},
		{"hyphenated mixed numbers", "Loaf\nServes 8\n2-1/2 cups flour\n1-1/4 tsp salt\n\nMix the flour and salt. " +
			"Bake at 180 °C from 1-1/4 to 1-3/4 hours.", "watch, 1 h 15 min to 1 h 45 min; oven 180 °C", "30 min"},
		{"a numbered line that instructs begins the method", "Bars\nServes 8\n2 eggs\n1 cup flour\n\nIcing:\n1 cup " +
			"powdered sugar\n2 tbsp milk\n\n1. Heat oven to 325°F. Line a tin.\n2. Beat the eggs with the flour. Bake " +
			"30 minutes.", "oven 160 °C", "| Heat oven"},
		{"a paragraph of ingredients broken where its lines were full", "        87. A PLAIN BATTER PUDDING.\n\n  " +
			"INGREDIENTS.--3/4 lb. of flour, 1/2 lb. of moist sugar\nrolled and sifted, 1 pint of milk, 6 eggs, 1/2 oz. " +
			"of\nground ginger, 3 oz. of butter.\n\n  _Mode._--Beat the eggs with the sugar until they are white, and\n" +
			"stir in the flour and the ginger by degrees. Add the milk\nand the butter, and bake in a moderate oven for " +
			"an hour.\n\n  _Sufficient_ for six persons.", "3 oz | butter", "87 |"},
		{"a title behind the number that a book gives it", "318. A PLAIN RICE PUDDING.\n\nIngredients.--1/4 lb. of rice, " +
			"1 quart of milk.\n\n_Mode._--Boil the rice in the milk for 40 minutes.\n\n_Time._--40 minutes.",
			"A plain rice pudding, for", "Time._--40 minutes ["},
		{"whose kitchen it comes from is no title", "From the kitchen of: Ada Ohm\nCORN PUDDING   Serves 6\n\n2 eggs\n" +
			"1 can corn\n\nBeat the eggs with the corn. Bake for 40 minutes at 350°F.", "CORN PUDDING, for 6", ""},
		{"made ahead to a step, and kept so long", pork + "Rub the pork with the salt. Roast at 160 °C for 2 h.\n\nNotes\n" +
			"Make ahead: the pork can be made up to the end of step 1 and kept in the fridge for 2 days.",
			"ahead 2 days", "keeps 2 days"},
		{"can be made the day before, without an article", pork + "Rub the pork with the salt. Roast at 160 °C for 2 h. " +
			"Rub can be made day before.", "ahead 1 day", "4–8 h"},
		{"has had its time", pork + "Rub the pork with the salt. Roast at 160 °C for 2 h. When the pork has had its two " +
			"hours, take off the foil.", "watch, 2 h; oven 160 °C; after 1]", "unattended"},
		{"held below a heat", pork + "Simmer the pork for 2 h. Hold 55C max, 20 min.", "warm: \"Hold 55C max, 20 min.\"",
			"hold 55C max, 20 min ["},
		{"held in the cold", pork + "Rub the pork with the salt. Hold on a rack, fridge. Roast at 160 °C for 2 h.",
			"keeps: \"Hold on a rack, fridge.\"", "warm"},
		{"an oven's heat behind a comma", pork + "Rub the pork with the salt and slide it into a low oven, 140, for three " +
			"hours.", "watch, 3 h; oven 140 °C", "At what temperature"},
		{"it does so many", "Shoulder\n1.8 kg pork shoulder\n2 tbsp salt\n\nRub the pork with the salt. Roast at " +
			"160 °C for 2 h. It does five hungry people, or seven if the children are small.",
			"Shoulder, for 5", "how many covers"},
		{"food that goes somewhere, without a verb", pork + "Roast the pork at 160 °C for 2 h. Slice it onto plates. " +
			"Gravy around. 5 g parsley. Serve.", "gravy around; 5 g parsley", "note"},
		{"food so long, without a verb", pork + "Heat a pan. Pork fat side down, 4 min. Turn it and rest for 5 minutes.",
			"2 Pork fat side down, 4 min [watch, 4 min; burner", "note"},
		{"off the heat", pork + "Boil 200 ml stock for 2 minutes. Off heat whisk in butter bit by bit. Roast the pork at " +
			"160 °C for 2 h.", "Off heat whisk in butter bit by bit [hands", "note"},
		{"what is told of food is no step", pork + "Roast the pork at 160 °C for 2 h. The pork looks pale at first. Gravy " +
			"will not reheat. Slice it.", "note: \"Gravy will not reheat.\"", "gravy will not reheat ["},
	} {
		r, err := ReadFile([]byte(c.text))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := r.Outline(); !strings.Contains(got, c.want) || c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: want %q and no %q in\n%s", c.name, c.want, c.not, got)
		}
	}
}
