package trace_test

import (
	"strings"
	"testing"

	"tureen/planner"
)

// usual are doughs, batters and preserves by usual proportions, common practice, no source: what is bread, cake or
// biscuits once it is baked keeps, and what stays moist in the middle spoils.
var usual = []expected{
	{of("500 g of flour; 320 ml of water; 7 g of yeast; 10 g of salt", "Knead the dough", "oven: Bake the bread"),
		"keeps", "a loaf"},
	{of("500 g of bread flour; 5 of eggs; 250 g of butter; 50 g of sugar; 7 g of yeast", "Knead the dough",
		"oven: Bake the brioche"), "keeps", "rich, but bread"},
	{of("225 g of self-raising flour; 225 g of butter; 225 g of caster sugar; 4 of eggs", "Beat the mixture",
		"oven: Bake the sponge"), "keeps", "equal weights of all"},
	{of("300 g of flour; 200 g of butter; 100 g of sugar", "Rub in the butter", "oven: Bake the shortbread"), "keeps",
		"nothing wet"},
	{of("200 g of dark chocolate; 150 g of butter; 250 g of sugar; 3 of eggs; 100 g of flour", "Mix the batter",
		"oven: Bake the brownies"), "keeps", "chocolate and sugar bind"},
	{of("150 g of flour; 100 g of butter; 250 ml of water; 4 of eggs", "Beat the eggs into the paste",
		"oven: Bake the buns"), "keeps", "choux dries out in the oven"},
	{of("4 of egg whites; 220 g of caster sugar", "Whisk the egg whites with the sugar", "oven: Bake the meringue"),
		"keeps", "dried sugar and white"},
	{of("100 g of egg whites; 130 g of ground almonds; 130 g of icing sugar", "Fold the mixture",
		"oven: Bake the macarons"), "keeps", "almonds and sugar"},
	{of("300 g of all-purpose flour; 150 g of sugar; 2 of eggs; 240 ml of buttermilk; 120 ml of oil; 10 g of "+
		"baking powder", "Stir the batter", "oven: Bake the muffins"), "keeps", "an American muffin"},
	{of("250 g of flour; 2 of eggs; 200 g of sugar; 200 g of carrots; 200 ml of oil", "Mix the batter",
		"oven: Bake the carrot cake"), "keeps", "roots are dry enough"},
	{of("250 g of shortcrust pastry; 4 of eggs; 300 ml of double cream; 150 g of bacon", "Line the tin",
		"oven: Bake the quiche"), "spoils", "a filling of eggs and cream"},
	{of("250 g of shortcrust pastry; 6 of egg yolks; 500 ml of double cream; 80 g of sugar", "Fill the case",
		"oven: Bake the custard tart"), "spoils", "custard under its skin"},
	{of("100 g of flour; 4 of eggs; 400 ml of milk; 100 g of sugar; 500 g of cherries",
		"Pour the batter over the cherries",
		"oven: Bake the clafoutis"), "spoils", "more custard than cake"},
	{of("300 g of bread; 4 of eggs; 600 ml of milk; 80 g of sugar", "Soak the bread", "oven: Bake the pudding"), "spoils",
		"bread in custard"},
	{of("200 g of digestive biscuits; 600 g of cream cheese; 150 g of sugar; 3 of eggs", "Beat the cheese with the eggs",
		"oven: Bake the cheesecake"), "spoils", "cream cheese"},
	{of("200 g of flour; 2 of eggs; 400 ml of milk", "Whisk the batter"), "spoils", "pancake batter, raw"},
	{of("200 g of flour; 2 of eggs; 400 ml of milk", "Whisk the batter", "hob: Fry the pancakes"), "spoils",
		"a pan makes no bread of a batter"},
	{of("4 of eggs; 300 ml of milk; 140 g of flour", "Whisk the batter", "oven: Bake the Yorkshire puddings"), "spoils",
		"wetter than a dough"},
	{of("500 g of flour; 7 g of yeast; 2 of eggs; 250 g of minced beef", "Fill the dough with the mince",
		"oven: Bake the buns"), "spoils", "meat in it"},
	{of("500 g of flour; 7 g of yeast; 300 g of spinach", "Fill the dough with the spinach", "oven: Bake the bread"),
		"spoils", "greens in it"},
	{of("150 g of flour; 100 g of butter; 250 ml of water; 4 of eggs", "hob: Cook the paste and beat in the eggs",
		"oven: Bake the buns"), "keeps", "choux is cooked before it is baked"},
	{of("500 g of pate brisee; 1 kg of apples; 80 g of sugar", "Lay the slices in the case", "oven: Bake the tart"),
		"keeps", "French for shortcrust"},
	{of("", "Beat eggs with sugar and fold in flour", "oven: Bake the sponge"), "keeps", "known by its words alone"},
	{of("400 g of sugar; 100 g of butter; 200 ml of cream", "hob: Boil to 120 °C and pour out"), "keeps",
		"sugar boiled till it sets keeps"},
	{of("400 g of sugar; 100 g of butter; 200 ml of cream", "hob: Boil to the soft ball stage"), "keeps", "by its stage"},
	{of("200 g of sugar; 100 g of butter; 300 ml of cream", "hob: Boil to 120 °C and pour out"), "spoils",
		"more cream than sugar"},
	{of("200 g of sugar; 100 g of butter; 200 ml of cream", "hob: Boil the sauce"), "spoils", "nobody says how far"},
	{of("1 of baguette; 1 of garlic clove; 50 ml of olive oil", "Cut the bread", "oven: Bake the croutons"), "keeps",
		"dry, garlic and all"},
	{of("1 of baguette; 3 of tomatoes; 50 ml of olive oil", "Slice the tomatoes", "oven: Bake the bread"), "spoils",
		"tomatoes on it"},
	{of("1 of puff pastry; 6 of onions", "Slice the onions", "oven: Bake the tart"), "spoils",
		"a sheet of pastry is little beside them"},
	{of("1 of puff pastry; 8 of apples; 80 g of sugar", "Slice the apples", "oven: Bake the tart"), "keeps", "fruit"},
	{of("300 g of nuts; 200 g of mushrooms; 100 g of breadcrumbs; 2 of eggs", "Mix all", "oven: Bake the loaf"), "spoils",
		"a loaf of vegetables"},
	{of("500 g of flour; 150 g of yoghurt; 5 g of yeast", "Knead the dough", "hob: Cook in a hot dry pan"), "keeps",
		"naan"},
	{of("500 g of flour; 250 ml of milk; 2 of eggs; 7 g of yeast", "Knead the dough", "hob: Deep-fry"), "keeps",
		"doughnuts"},
	{of("400 g of flour; 4 of eggs", "Knead the dough", "hob: Boil"), "spoils", "boiled it is pasta"},
	{of("200 g of flour; 200 ml of milk; 1 of egg", "Whisk the batter", "hob: Fry"), "spoils", "thick pancakes are moist"},
	{of("300 ml of olive oil; 6 of chillies", "Put the chillies into the oil"), "garlic-oil", "as garlic"},
	{of("1 bunch of parsley; 100 ml of olive oil; 10 g of capers", "Chop all"), "garlic-oil",
		"a few capers sour no oil"},
	{of("300 g of red lentils; 200 g of breadcrumbs; 2 of eggs", "Mix all", "oven: Bake the loaf"), "spoils",
		"pulses keep only raw"},
	{of("150 g of flour; 100 g of butter; 4 of eggs; 120 g of gruyere", "hob: Cook the paste, beat in the eggs and cheese",
		"oven: Bake the puffs"), "keeps", "cheese dries with the paste"},
	{of("500 g of bread flour; 250 g of potatoes; 7 g of yeast", "hob: Boil and mash the potatoes",
		"Knead the dough with the potato", "oven: Bake the loaf"), "keeps", "bread with potato in it"},
	{of("200 g of flour; 800 g of potatoes; 7 g of yeast", "hob: Boil and mash the potatoes", "Knead with the potato",
		"oven: Bake the loaf"), "spoils", "more potato than flour"},
	{of("250 g of flour; 175 g of butter; 4 of eggs; 300 g of sugar; 4 of lemons",
		"oven: Bake the flour, butter and sugar",
		"oven: Beat the eggs with the lemon juice, pour over and bake"), "spoils", "egg and juice on a base"},
	{of("250 g of butter; 4 of garlic cloves", "Mash the garlic into the butter"), "garlic-oil",
		"garlic has no air in butter"},
	{of("250 g of butter; 1 bunch of parsley", "Mash the parsley into the butter"), "keeps", "herb butter"},
	// preserves
	{of("1 kg of green tomatoes; 3 of onions; 500 ml of vinegar; 400 g of sugar", "hob: Simmer the chutney"), "keeps",
		"a counted onion has a weight"},
	{of("6 of onions; 50 ml of vinegar; 30 g of sugar", "hob: Simmer the onions"), "spoils", "too little keeps them"},
	{of("1 kg of strawberries; 800 g of sugar", "Halve the strawberries", "hob: Boil the jam"), "keeps", "jam"},
	{of("1 kg of plums; 500 ml of vinegar; 300 g of sugar; 200 g of onions", "Chop the plums and onions",
		"hob: Simmer the chutney"), "keeps", "sugar and vinegar"},
	{of("200 g of sugar; 200 ml of water", "hob: Boil the syrup"), "keeps", "syrup"},
	{of("200 g of sugar; 3 of lemons; 4 of eggs; 100 g of butter", "Whisk all", "hob: Cook the curd"), "spoils",
		"lemon curd has eggs"},
	{of("1 kg of tomatoes; 20 g of sugar", "Chop the tomatoes", "hob: Simmer the tomatoes"), "spoils",
		"a spoon of sugar preserves nothing"},
	{of("1 kg of pears; 750 ml of red wine; 100 g of sugar", "Peel the pears", "hob: Poach the pears"), "keeps",
		"fruit is sour by itself"},
	{of("1 kg of red cabbage; 400 ml of red wine", "Shred the cabbage", "hob: Braise the cabbage"), "spoils",
		"vegetables in wine are no preserve"},
	{of("500 g of apples; 50 g of sugar", "Peel the apples", "hob: Stew the apples"), "keeps", "sour by themselves"},
	{of("600 g of cucumbers; 300 ml of vinegar; 100 g of sugar", "Slice the cucumbers and pour the vinegar over"), "keeps",
		"sour through and through"},
	{of("1000 g of cucumbers; 300 ml of vinegar; 100 g of sugar", "Slice the cucumbers and pour the vinegar over"),
		"spoils", "less than a quarter of vinegar"},
	{of("600 g of cucumbers; 300 ml of vinegar; 200 g of feta", "Slice the cucumbers and pour the vinegar over"),
		"spoils", "cheese in it"},
	{of("600 g of chicken; 300 ml of vinegar", "Cut the chicken up and pour the vinegar over"), "spoils",
		"vinegar keeps no meat"},
	// under oil
	{of("300 ml of olive oil; 6 of garlic cloves", "Crush the garlic into the oil"), "garlic-oil", "no air, nothing sour"},
	{of("300 ml of olive oil; 4 of sprigs of rosemary", "Put the rosemary into the oil"), "garlic-oil", "herbs as well"},
	{of("300 ml of olive oil; 150 ml of vinegar; 2 of garlic cloves", "Whisk the dressing"), "keeps", "sour enough"},
	{of("100 g of basil; 150 ml of olive oil; 50 g of pine nuts; 50 g of parmesan; 1 of garlic clove", "Blend the pesto"),
		"garlic-oil", "pesto is herbs in oil"},
	{of("6 heads of garlic; 400 ml of olive oil", "oven: Confit the garlic in the oil"), "garlic-oil cooked",
		"heat spares what grows there"},
	{of("4 of garlic cloves; 40 ml of olive oil; 800 g of tomatoes", "hob: Fry the garlic in the oil",
		"hob: Simmer with the tomatoes"), "cooked", "no oil lies over it any more"},
	{of("300 ml of olive oil", "Pour the oil"), "keeps", "oil by itself"},
}

func TestWhatIsBakedOrPreservedKeeps(t *testing.T) {
	for _, x := range usual {
		got := left(x.dish)
		said := "keeps"
		if got.Perishable {
			said = "spoils"
		}
		if x.want != "keeps" && x.want != "spoils" {
			said = told(got)
		}
		if said != x.want {
			t.Errorf("%s: %s (%s), want %s: %v", x.why, said, told(got), x.want, x.dish.Ingredients)
		}
	}
}

// A raw dough with leaven that rises may stand for twice as long; batter, what has no leaven and what is baked may not.
func TestADoughIsRawAndRises(t *testing.T) {
	for _, x := range []expected{
		{of("500 g of flour; 2 of eggs; 100 ml of milk; 7 g of yeast", "Knead the dough"), "raw-egg", "dough"},
		{of("500 g of flour; 2 of eggs; 100 ml of milk; 7 g of yeast", "Knead the dough", "Let it rise"), "raw-egg", "dough"},
		{of("500 g of flour; 2 of eggs; 100 ml of milk; 7 g of yeast", "Knead the dough", "oven: Bake it"), "", ""},
		{of("500 g of flour; 2 of eggs; 100 ml of milk", "Knead the dough"), "raw-egg", ""},
		{of("200 g of flour; 3 of eggs; 600 ml of milk; 7 g of yeast", "Whisk the batter"), "raw-egg", ""},
		{of("500 g of flour; 2 of eggs; 7 g of yeast; 200 g of ham", "Knead the ham into the dough"), "raw-egg", ""},
	} {
		got := left(x.dish)
		if got.Dough != (x.why == "dough") || got.Perishable != (x.want != "") {
			t.Errorf("%v: dough %v, %s", x.dish.Ingredients, got.Dough, told(got))
		}
	}
}

// A pudding of dried fruit that is steamed for hours keeps, a steamed sponge does not; and what is called a custard
// tart
// spoils, whatever its proportions.
func TestTimeAndNameTell(t *testing.T) {
	for _, x := range []struct {
		name, ingredients, do string
		minutes               planner.Minutes
		spoils                bool
	}{
		{"Plum duff", "200 g of breadcrumbs; 150 g of suet; 400 g of raisins; 3 of eggs; 150 g of sugar", "Steam", 360,
			false},
		{"Plum duff", "200 g of breadcrumbs; 150 g of suet; 400 g of raisins; 3 of eggs; 150 g of sugar", "Steam", 60, true},
		{"Pudding", "150 g of flour; 150 g of butter; 150 g of sugar; 3 of eggs", "Steam", 180, true},
		{"Shortcake", "300 g of flour; 200 g of sugar; 2 of eggs", "oven: Bake", 40, false},
		{"Pear tart", "320 g of shortcrust pastry; 4 of pears; 200 ml of cream; 3 of eggs", "oven: Bake", 40, true},
		{"Pear tart", "320 g of shortcrust pastry; 4 of pears; 80 g of sugar", "oven: Bake", 40, false},
		{"Custard tart", "300 g of flour; 200 g of sugar; 2 of eggs", "oven: Bake", 40, true},
	} {
		if !strings.Contains(x.do, ":") {
			x.do = "hob: " + x.do
		}
		d := of(x.ingredients, x.do)
		d.Name, d.Steps[0].Time.Likely = x.name, x.minutes
		if got := left(d); got.Perishable != x.spoils {
			t.Errorf("%s, %d min: %s", x.name, x.minutes, told(got))
		}
	}
}
