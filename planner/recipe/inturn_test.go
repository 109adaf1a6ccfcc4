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
