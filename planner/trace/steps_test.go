package trace_test

import (
	"testing"

	"tureen/planner"
)

// expected is what the last step of a dish leaves, in the words of told, and why.
type expected struct {
	dish      *planner.Dish
	want, why string
}

// leaves are steps of ordinary cooking, as people in Britain and America write them; each row says why.
var leaves = []expected{
	// meat, poultry and fish
	{of("800 g of chicken thighs", "counter: Take the chicken out of the fridge"), "poultry", "raw as it came"},
	{of("800 g of chicken thighs", "oven: Roast the chicken"),
		"cooked, anew", "raw poultry roasted for the first time"},
	{of("800 g of chicken thighs", "hob: Brown the chicken"),
		"poultry, part-cooked", "coloured outside, raw inside"},
	{of("800 g of chicken thighs", "hob: Brown the chicken", "oven: Braise until the juices run clear"),
		"cooked, anew", "browned and then finished"},
	{of("800 g of chicken thighs", "oven: Roast the chicken", "counter: Let it rest", "oven: Reheat the chicken"),
		"cooked", "cooked once already: nothing begins anew"},
	{of("1 kg of beef topside", "oven: Roast the beef until rosy"),
		"red-meat, part-cooked", "rosy inside is below what the charts ask"},
	{of("1 kg of beef topside", "oven: Roast the beef until well done"), "cooked, anew", "to the middle"},
	{of("1 kg of beef topside", "oven: Roast the beef to 52 °C"), "red-meat, part-cooked", "below what the charts ask"},
	{of("1 kg of beef topside", "oven: Roast the beef to 125 F"), "red-meat, part-cooked", "the same in Fahrenheit"},
	{of("1 kg of beef topside", "oven: Roast the beef to 63 °C"), "cooked, anew", "what the charts ask"},
	{of("1 kg of chicken", "oven: Roast the chicken to 165 F"), "cooked, anew", "what the charts ask of poultry"},
	{of("1 kg of chicken", "oven: Roast the chicken to 63 °C"), "poultry, part-cooked",
		"enough for beef, not for chicken"},
	{of("4 of lamb chops", "hob: Grill the chops"), "cooked, anew", "a British grill"},
	{of("4 of lamb chops", "hob: Broil the chops"), "cooked, anew", "an American broiler"},
	{of("500 g of ground beef", "counter: Shape the beef into patties"),
		"ground-meat", "American mince is raw mince"},
	{of("500 g of minced beef; 2 of onions", "hob: Fry the mince with the onions"),
		"cooked, anew", "mince and what was cut, cooked"},
	{of("600 g of pork shoulder", "hob: Sear the pork"), "red-meat, part-cooked", "seared is not cooked through"},
	{of("6 of sausages", "hob: Fry the sausages"), "cooked, anew", "raw sausage"},
	{of("200 g of bacon", "counter: Dice the bacon", "hob: Fry the bacon"),
		"cooked", "cured meat is not raw meat to the clock"},
	{of("600 g of tuna steaks", "hob: Sear the tuna"), "fish, part-cooked", "seared outside"},
	{of("600 g of tuna steaks", "counter: Season the tuna", "hob: Grill the tuna"),
		"cooked", "histamine is not cooked away: no new beginning"},
	{of("500 g of mackerel fillets", "counter: Season the mackerel", "oven: Bake the mackerel"),
		"cooked", "as tuna"},
	{of("800 g of salmon", "hob: Poach the salmon"), "cooked, anew", "fish that forms no histamine"},
	{of("500 g of prawns", "hob: Boil the prawns"), "cooked, anew", "shellfish"},
	{of("500 g of prawns", "hob: Fry the prawns until pink"), "cooked, anew", "prawns are pink when they are done"},
	{of("500 g of cod; 500 g of prawns", "hob: Simmer the cod and the prawns until they turn pink"),
		"cooked, anew", "it is said of the prawns"},
	{of("500 g of prawns; 600 g of lamb fillet", "hob: Fry the lamb and the prawns until pink"),
		"cooked, red-meat, part-cooked", "of the lamb it may be said, too"},
	{of("6 of duck breasts", "hob: Fry skin down, turn", "hob: Cook for 3 minutes more until pink"),
		"poultry, part-cooked", "the later sign says that the first heat was not enough"},
	{of("1 kg of beef topside", "oven: Roast the beef", "hob: Fry it on until 54 °C"),
		"red-meat, part-cooked", "so does a later temperature"},
	{of("1 kg of beef topside", "oven: Roast the beef until well done", "hob: Brown the beef"),
		"cooked", "browning later takes nothing back"},
	{of("600 g of chicken; 600 g of rump steak", "hob: Fry the chicken", "hob: Add the steak and fry until pink"),
		"cooked, red-meat, part-cooked", "the sign is of the steak that joins"},
	{of("1 kg of mussels", "hob: Steam the mussels until the shells open"),
		"cooked, anew", "live until they are cooked"},
	{of("300 g of cooked ham", "counter: Slice the ham"), "cured-meat", "ham is cured"},
	{of("300 g of cooked ham", "counter: Slice the ham", "hob: Fry the ham"),
		"cooked", "cooked before: no new beginning"},
	{of("300 g of smoked salmon", "counter: Slice the smoked salmon"), "smoked-fish", "smoked fish is eaten raw"},
	// eggs and milk
	{of("6 of eggs", "counter: Set out the eggs"), "eggs", "whole in their shells"},
	{of("6 of eggs", "counter: Whisk the eggs"), "raw-egg", "out of their shells"},
	{of("6 of eggs", "counter: Set out the eggs", "hob: Hard boil the eggs"),
		"egg-dish cooked", "cooked eggs spoil"},
	{of("4 of eggs; 500 ml of milk", "counter: Whisk the eggs with the milk", "hob: Cook the custard"),
		"custard cooked", "each part has its limit"},
	{of("500 ml of double cream", "counter: Whip the cream"), "whipped-cream", "British whipped cream"},
	{of("500 ml of heavy cream", "counter: Whip the cream to soft peaks"), "whipped-cream", "the American one"},
	{of("500 ml of milk", "hob: Warm the milk"), "custard", "warmed milk spoils as milk does"},
	{of("3 of egg yolks; 200 g of butter", "hob: Whisk the yolks over a pan of simmering water"), "raw-egg",
		"the water simmers, not the yolks"},
	{of("3 of egg yolks; 500 ml of milk", "hob: Cook the custard over simmering water"), "custard cooked, anew",
		"and yet it is cooked"},
	{of("250 g of butter", "counter: Soften the butter"), "keeps", "butter keeps"},
	{of("200 g of cheddar", "counter: Grate the cheddar"), "keeps", "hard cheese keeps for an evening"},
	{of("250 g of mozzarella", "counter: Slice the mozzarella"), "custard", "soft cheese spoils"},
	{of("200 g of feta; 1 of cucumber", "counter: Dice the cucumber and crumble the feta"),
		"custard, cut-produce", "cheese and what was cut"},
	// what is dry, and what becomes of it
	{of("300 g of rice", "counter: Weigh the rice"), "keeps", "dry"},
	{of("300 g of rice", "hob: Boil the rice"), "rice cooked", "cooked rice grows what heat spares"},
	{of("500 g of spaghetti", "hob: Boil the spaghetti"), "pasta cooked", "cooked noodles spoil"},
	{of("300 g of dried chickpeas", "counter: Soak the chickpeas overnight"), "cooked", "what was dry is wet"},
	{of("300 g of red lentils", "hob: Simmer the lentils"), "cooked", "cooked pulses spoil"},
	{of("250 g of porridge oats", "hob: Simmer the oats"), "cooked", "cooked grain spoils"},
	{of("200 g of almonds", "oven: Toast the almonds"), "keeps", "nuts stay dry"},
	// vegetables and fruit
	{of("1 kg of potatoes", "counter: Peel the potatoes"), "keeps", "raw potatoes keep"},
	{of("1 kg of potatoes", "hob: Boil the potatoes"), "cooked", "cooked potatoes spoil"},
	{of("1 kg of potatoes", "hob: Parboil the potatoes"), "cooked", "half cooked, they spoil as cooked"},
	{of("4 of aubergines", "oven: Roast the aubergines"), "cooked", "British name"},
	{of("4 of eggplants", "oven: Roast the eggplants"), "cooked", "American name"},
	{of("500 g of courgettes", "hob: Saute the courgettes"), "cooked", "British name"},
	{of("500 g of zucchini", "hob: Saute the zucchini"), "cooked", "American name"},
	{of("1 of melon", "counter: Put the melon in a bowl"), "keeps", "whole"},
	{of("1 of melon", "counter: Cut up the melon"), "cut-produce", "cut melon needs the cold"},
	{of("500 g of tomatoes", "counter: Slice the tomatoes"), "cut-produce", "cut tomatoes need the cold"},
	{of("200 g of rocket", "counter: Wash the rocket"), "cut-produce", "tender leaves once washed"},
	{of("200 g of arugula", "counter: Wash the arugula"), "cut-produce", "the same in America"},
	{of("500 g of raspberries", "counter: Sort the raspberries"), "keeps", "berries are sour"},
	{of("500 g of strawberries", "counter: Slice the strawberries"), "cut-produce", "soft fruit once it is cut"},
	{of("500 g of apples", "counter: Peel the apples"), "keeps", "apples are sour"},
	{of("500 g of mushrooms", "hob: Fry the mushrooms"), "cooked", "cooked mushrooms spoil"},
	{of("1 kg of grapes", "counter: Wash the grapes and pile them into a bowl"), "keeps", "water stays on the skin"},
	{of("500 g of strawberries", "counter: Wash and hull the strawberries"), "cut-produce", "hulled is cut"},
	{of("500 g of cherry tomatoes", "counter: Rinse the tomatoes"), "keeps", "whole in their skins"},
	// what is put into boiling water, and what was dry
	{of("800 g of chicken wings", "hob: Dip the chicken wings in boiling water"), "poultry, part-cooked",
		"boiling water is not boiled"},
	{of("600 g of broccoli", "counter: Put the broccoli into boiling water"), "cooked", "enough for vegetables"},
	{of("300 g of couscous", "counter: Pour boiling water over the couscous"), "cooked", "what was dry is wet"},
	{of("100 g of rice noodles", "counter: Soak the noodles in boiling water"), "pasta cooked", "soaked is cooked here"},
	{of("500 g of dried chickpeas; 1 of onion", "counter: Blend with the onion"), "cooked", "beans ground wet spoil"},
	{of("500 g of dried broad beans", "counter: Grind the soaked beans"), "cooked", "somebody has soaked them"},
	{of("6 of eggs", "hob: Boil the eggs until runny"), "raw-egg", "the yolk is not cooked"},
	{of("6 of eggs", "hob: Soft boil the eggs"), "raw-egg", "the yolk is not cooked"},
	{of("500 g of cold roast chicken", "counter: Slice the chicken"), "cooked", "what is cold and roast was cooked"},
	{of("2 kg of roast beef", "counter: Season the beef", "oven: Roast the beef until well done"), "cooked, anew",
		"who roasts it lists a raw joint"},
	{of("300 g of roast beef", "counter: Slice the beef"), "cooked", "from the delicatessen"},
	{of("1 of rotisserie chicken", "counter: Shred the chicken"), "cooked", "bought cooked"},
	{of("500 g of prawns; 600 g of chicken thighs", "hob: Cook all to 60 °C"), "cooked, poultry, part-cooked",
		"enough for prawns, not for chicken"},
	// compound foods are what they are, not what is in their names
	{of("1 of canary melon", "counter: Cut up the melon"), "cut-produce", "a melon"},
	{of("600 g of pork in cider", "counter: Put it in a bowl"), "cooked", "no drink"},
	{of("1 of no-bake cheesecake", "counter: Slice the cheesecake"), "custard cooked", "no dry cake"},
	{of("200 g of frisee lettuce", "counter: Tear the lettuce"), "cut-produce", "tender leaves"},
	{of("1 of lemon curd tart", "counter: Slice the tart"), "custard cooked", "no fruit tart"},
	{of("12 of rice balls", "counter: Put the rice balls on a plate"), "rice cooked", "no dry pasta"},
	// the topping comes where the words say
	{of("500 g of flour; 5 g of yeast; 300 g of mozzarella", "counter: Knead the dough"), "custard",
		"no later step fills it: all is in it"},
	{of("500 g of flour; 5 g of yeast; 300 g of mozzarella", "counter: Knead the dough", "counter: Top it"),
		"custard", "the cheese comes on here"},
	// by its words alone
	{of("", "oven: Roast the leg of lamb"), "cooked, anew", "nobody listed anything"},
	{of("", "counter: Chop the carrots", "hob: Simmer them"), "cooked", "the steps name it"},
	{of("", "counter: Slice the bread"), "keeps", "bread keeps"},
	{of("", "counter: Mix the ganache", "counter: Do the rest"),
		"custard cooked", "ganache is chocolate and cream"},
	{of("1 of zorblax", "counter: Peel the zorblax"), "cooked, unknown", "what nobody knows spoils"},
	{of("1 of zorblax", "counter: Peel the zorblax", "hob: Boil the zorblax"),
		"cooked, unknown", "cooked it is unknown still"},
	// soups and sauces
	{of("1 l of chicken stock", "hob: Reduce the stock"), "soup cooked", "stock spoils"},
	{of("400 g of tinned tomatoes; 2 of onions", "hob: Simmer the tomatoes with the onions"),
		"cooked, soup cooked", "a cooked sauce"},
	{of("300 ml of mayonnaise; 500 g of cooked potatoes", "counter: Dress the potatoes with mayonnaise"),
		"cooked, raw-egg cooked", "a salad of two sorts, each bought ready"},
}

func TestWhatAStepLeaves(t *testing.T) {
	for _, x := range leaves {
		last := x.dish.Steps[len(x.dish.Steps)-1].Do
		if got := told(left(x.dish)); got != x.want {
			t.Errorf("%v, %q: got %s, want %s: %s", x.dish.Ingredients, last, got, x.want, x.why)
		}
	}
}

// What is roasted is what the next step names, though the roasting names nothing.
func TestWhatIsCookedIsNamedLater(t *testing.T) {
	got := left(of("2 kg of pork shoulder", "oven: Roast until it falls apart", "Pull the pork"))
	if told(got) != "cooked" {
		t.Errorf("pulled pork: %s", told(got))
	}
}
