package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// What an ingredient's words say of how it keeps, raw, as it goes into a dish. The first row that names a word wins.
// Common practice, no source: the limits behind the kinds are safety's, with theirs.
var kindWords = []struct {
	kind  safety.Kind
	words []string
}{
	{safety.None, []string{"stock cube", "bouillon", "coconut milk", "coconut cream", "peanut butter", "almond butter", "cocoa butter", "egg noodles", "fish sauce", "oyster sauce",
		"vanilla", "mustard", "vinegar", "baking powder", "baking soda", "bicarbonate", "yeast", "chicken seasoning", "butter beans", "chickpeas", "tomato purée", "tomato puree",
		"tomato paste", "dried", "cream of tartar", "instant coffee", "golden syrup", "nutmeg", "peppercorn", "bay leaf", "bay leaves", "sage", "curry leaves", "lime leaves", "mint", "basil", "thyme", "rosemary", "parsley", "coriander", "cilantro", "dill", "oregano", "tarragon", "chervil", "chives", "gelatin", "gelatine"}},
	{safety.GroundMeat, []string{"minced beef", "minced lamb", "minced pork", "ground beef", "ground lamb", "ground pork", "ground turkey", "mince", "sausage", "sausages", "sausagemeat", "chorizo"}},
	{safety.CuredMeat, []string{"bacon", "ham", "prosciutto", "pancetta", "salami", "lardons", "speck"}},
	{safety.Soup, []string{"stock", "broth", "gravy"}},
	{safety.Poultry, []string{"chicken", "turkey", "duck", "goose", "quail", "pheasant", "guinea fowl", "partridge", "poussin", "liver", "livers"}},
	{safety.RedMeat, []string{"beef", "veal", "lamb", "pork", "mutton", "venison", "steak", "brisket", "oxtail", "rabbit", "shank", "shanks", "kidney", "kidneys", "ribs", "goat shoulder", "meat"}},
	{safety.Fish, []string{"salmon", "cod", "haddock", "trout", "tuna", "mackerel", "halibut", "bass", "bream", "sole", "plaice", "hake", "monkfish", "turbot", "fish", "anchovy fillets", "sardines", "herring", "snapper", "tilapia", "pollock"}},
	{safety.Shellfish, []string{"prawn", "prawns", "shrimp", "scallop", "scallops", "mussels", "clams", "oysters", "squid", "crab", "lobster", "octopus"}},
	{safety.RawEgg, []string{"egg", "eggs", "yolk", "yolks", "egg white", "egg whites", "mayonnaise"}},
	{safety.Custard, []string{"cream", "half and half", "milk", "buttermilk", "yoghurt", "yogurt", "crème fraîche", "creme fraiche", "mascarpone", "ricotta", "custard", "cream cheese", "goat's cheese", "goat cheese", "cottage cheese", "mozzarella", "feta", "tofu", "fromage frais", "quark"}},
	{safety.Rice, []string{"cooked rice"}},
	{safety.CutProduce, []string{"tomato", "tomatoes", "lettuce", "spinach", "melon", "watermelon", "rocket", "arugula", "cucumber", "strawberries", "raspberries", "salad", "leaves", "peach", "peaches", "mango", "pineapple", "grapes", "kale", "chard", "watercress", "sprouts"}},
	{safety.None, []string{"flour", "sugar", "salt", "pepper", "oil", "butter", "honey", "syrup", "water", "wine", "cider", "beer", "brandy", "rum", "sherry", "port", "bread", "breadcrumbs", "crumbs", "rice", "pasta", "noodles", "lasagne", "spaghetti", "macaroni", "penne", "tortillas", "rolls", "buns", "baguette", "loaf", "pitta", "barley",
		"lentils", "beans", "oats", "cornmeal", "polenta", "semolina", "couscous", "bulgur", "quinoa", "nuts", "almonds", "walnuts", "hazelnuts", "pecans", "pistachios", "cashews", "seeds", "seed", "raisins", "sultanas", "currants", "dates", "apricots",
		"onion", "onions", "shallot", "shallots", "garlic", "ginger", "carrot", "carrots", "potato", "potatoes", "celery", "fennel", "leek", "leeks", "cabbage", "beetroot", "beets", "parsnip", "parsnips", "turnip", "swede", "squash", "pumpkin",
		"courgette", "courgettes", "zucchini", "aubergine", "aubergines", "eggplant", "peppers", "chilli", "chillies", "chile", "mushroom", "mushrooms", "broccoli", "cauliflower", "peas", "corn", "asparagus", "radishes", "celeriac",
		"lemon", "lemons", "lime", "limes", "orange", "oranges", "apple", "apples", "pear", "pears", "plum", "plums", "banana", "bananas", "cranberries", "rhubarb", "cherries", "olives", "capers", "cocoa", "chocolate", "coffee", "tea", "cinnamon", "cumin", "coriander", "turmeric", "paprika", "cayenne", "cloves", "cardamom", "saffron",
		"thyme", "rosemary", "bay", "sage", "oregano", "parsley", "mint", "basil", "dill", "chives", "tarragon", "herbs", "spice", "spices", "stem ginger", "jam", "marmalade", "soy sauce", "cornflour", "cornstarch", "parmesan", "cheddar", "cheese", "gruyere", "gruyère", "lard", "dripping", "margarine", "shortening", "molasses", "treacle", "harissa", "tahini", "miso", "ketchup", "worcestershire", "tabasco", "wrappers", "skewers", "pastry", "scallions", "cracker", "crackers", "shortbread", "biscuit", "biscuits"}},
}

// kindOf is how an ingredient keeps by its words; known is false where no word tells. That is then taken for
// cooked food, the strict way to be wrong.
func kindOf(name string) (k safety.Kind, known bool) {
	low := lower(strings.ReplaceAll(name, "-", " "))
	for _, w := range strings.Fields(low) {
		low += " ; " + words.Singular(w) // tomatoes are a tomato
	}
	for _, row := range kindWords {
		if containsWord(low, row.words...) {
			return row.kind, true
		}
	}
	return safety.Cooked, false
}

// strictness orders kinds: of a mixture the strictest rules.
var strictness = []safety.Kind{safety.None, safety.Pasta, safety.CutProduce, safety.CuredMeat, safety.Cooked, safety.Soup, safety.Custard, safety.EggDish, safety.Rice, safety.RawEgg,
	safety.RedMeat, safety.Shellfish, safety.Fish, safety.GroundMeat, safety.Poultry}

func stricter(a, b safety.Kind) safety.Kind {
	at := func(k safety.Kind) int {
		for i, s := range strictness {
			if s == k {
				return i
			}
		}
		return -1
	}
	if at(b) > at(a) {
		return b
	}
	return a
}

// raw reports whether a kind is animal food that is not cooked.
func raw(k safety.Kind) bool {
	switch k {
	case safety.Poultry, safety.GroundMeat, safety.RedMeat, safety.Fish, safety.Shellfish, safety.LiveShellfish:
		return true
	}
	return false
}

// bakedGoods are what keeps on the counter once it is baked, where nothing moist is put on or into it.
var bakedGoods = []string{"bread", "loaf", "cornbread", "biscuit", "biscuits", "cookie", "cookies", "cracker", "crackers", "scone", "scones", "muffin", "muffins", "focaccia", "flatbread", "flatbreads",
	"shortbread", "cake", "brownies", "rolls", "buns", "oatcakes", "granola", "meringue", "meringues"}

// isBaked reports whether the dish is baked goods by its name and ingredients.
func (r *Reading) isBaked() bool {
	if r.keeps == "no" || !containsWord(r.Title, bakedGoods...) || containsWord(r.Title, "cheesecake", "custard", "fish", "crab", "meat", "pudding", "trifle", "tiramisu") {
		return false
	}
	for _, g := range r.Ingredients {
		low := lower(g.Name)
		if k, known := kindOf(low); !known || raw(k) || k == safety.CuredMeat || k == safety.CutProduce || k == safety.Soup {
			return false
		}
		if containsWord(low, "cream", "mascarpone", "ricotta", "custard", "curd", "cream cheese") {
			return false
		}
	}
	for _, s := range r.Steps {
		if s.Heat == planner.AnOven {
			return true
		}
	}
	return false
}

// soupy reports whether the dish is a soup, stew or sauce by its name.
func (r *Reading) soupy() bool {
	return containsWord(r.Title, "soup", "stew", "broth", "chowder", "casserole", "curry", "ragu", "ragù", "sauce", "chili", "chilli", "goulash", "daube", "braise", "gumbo", "tagine")
}

// leaves is what each step leaves, as far as the ingredients tell.
func (r *Reading) leaves(after [][]int) []planner.Food {
	kinds := make([]safety.Kind, len(r.Steps))
	cooked := make([]bool, len(r.Steps))
	parts := make([]bool, len(r.Steps))
	baked := r.isBaked()
	out := make([]planner.Food, len(r.Steps))
	later := func(i int) bool {
		for _, s := range r.Steps[i+1:] {
			if s.Cooks {
				return true
			}
		}
		return false
	}
	r.putAside()
	for i := range r.Steps {
		s := &r.Steps[i]
		k := safety.None
		for _, p := range after[i] {
			if r.beside(i, p) {
				continue
			}
			if r.Steps[p].Ready {
				k = stricter(k, r.unnamed(p))
				continue
			}
			k = stricter(k, kinds[p])
			cooked[i] = cooked[i] || cooked[p]
			parts[i] = parts[i] || parts[p]
		}
		if len(r.Ingredients) == 0 {
			// Nothing but a name: what it says, and else the strict way to be wrong.
			one, known := kindOf(r.Title)
			if !known || one == safety.None && !baked {
				one = safety.Cooked
			}
			k = stricter(k, one)
			if cooked[i] && raw(k) {
				k = safety.Cooked
			}
		}
		for _, g := range s.Parts {
			one := r.kindOf(g)
			if one == safety.Soup && !s.Cooks {
				one = safety.Cooked
			}
			k = stricter(k, one)
		}
		if i > 0 && r.Steps[i-1].aside && !s.aside && !s.Cooks && raw(k) {
			parts[i] = true // the browned meat comes back
		}
		if s.Cooks {
			switch {
			case s.browns() && raw(k) && later(i):
				parts[i] = true // not cooked through: the kind stays raw
			case s.Heat == planner.AnOven && baked:
				k, parts[i] = safety.None, false
			default:
				k, parts[i] = r.cookedFrom(k, s), false
			}
			cooked[i] = true
		}
		kinds[i] = k
		if k != safety.None {
			out[i] = planner.Food{Perishable: true, Kind: k, PartCooked: parts[i]}
		}
	}
	return out
}

// beside reports that the food of a step before does not go into this one: browned meat that waits, or what goes on its
// own way while this is done.
func (r *Reading) beside(i, before int) bool {
	s, p := &r.Steps[i], &r.Steps[before]
	return !p.Ready && (s.aside && !p.aside || s.Meanwhile && !s.told)
}

// browns reports whether a step cooks meat on the outside only.
func (s *Step) browns() bool {
	return s.Cooks && containsWord(s.Do, "brown", "sear", "seal", "colour", "color")
}

// putAside marks the steps between the browning of meat and the step that names it again: it is not in them, but it
// waits for them.
func (r *Reading) putAside() {
	for i := range r.Steps {
		r.Steps[i].aside = false
	}
	for i := range r.Steps {
		if !r.Steps[i].browns() {
			continue
		}
		var meat []int
		for _, s := range r.Steps[:i+1] {
			for _, g := range s.Parts {
				if raw(r.kindOf(g)) {
					meat = append(meat, g)
				}
			}
		}
		for back := i + 1; back < len(r.Steps) && len(meat) > 0; back++ {
			s := &r.Steps[back]
			if s.browns() || !slices.ContainsFunc(s.Parts, func(g int) bool { return slices.Contains(meat, g) }) {
				continue
			}
			for k := i + 1; k < back; k++ {
				r.Steps[k].aside = !r.Steps[k].browns()
			}
			break
		}
	}
}

// unnamed is the strictest of what was made ready and no later step names: it goes on with the next step. What is
// named joins there.
func (r *Reading) unnamed(ready int) safety.Kind {
	k := safety.None
	for _, g := range r.Steps[ready].Parts {
		named := false
		for i := range r.Steps {
			named = named || i != ready && slices.Contains(r.Steps[i].Parts, g)
		}
		if !named {
			k = stricter(k, r.kindOf(g))
		}
	}
	return k
}

// kindOf is how one of the ingredients keeps, by its words or, where they do not tell, by what was said.
func (r *Reading) kindOf(ingredient int) safety.Kind {
	k, known := kindOf(r.Ingredients[ingredient].Name)
	if !known && r.keeps == "yes" {
		return safety.None
	}
	return k
}

// cookedFrom is what a kind becomes when it is cooked. Vegetables that kept on the counter do so no more.
func (r *Reading) cookedFrom(k safety.Kind, s *Step) safety.Kind {
	switch k {
	case safety.RawEgg, safety.EggDish:
		return safety.EggDish
	case safety.Custard:
		if r.soupy() {
			return safety.Soup
		}
		return safety.Custard
	case safety.Rice, safety.Pasta, safety.Soup:
		return k
	}
	for _, g := range s.Parts {
		switch name := lower(r.Ingredients[g].Name); {
		case containsWord(name, "rice"):
			return safety.Rice
		case containsWord(name, "pasta", "noodles", "spaghetti", "macaroni"):
			return safety.Pasta
		}
	}
	if r.soupy() {
		return safety.Soup
	}
	return safety.Cooked
}

// askKeeping asks about ingredients whose words say nothing, and about baked goods.
func (r *Reading) askKeeping() []Question {
	var qs []Question
	if r.keeps != "" {
		return nil
	}
	if len(r.Ingredients) == 0 && !r.isBaked() {
		qs = append(qs, Question{About: "keeps", Step: -1, Ask: fmt.Sprintf("What food is %s, for its limits?", r.Title), Guess: "cooked food, or what its name says", rank: 3})
	}
	var unknown []string
	for _, g := range r.Ingredients {
		if _, known := kindOf(g.Name); !known {
			unknown = append(unknown, g.Name)
		}
	}
	if len(unknown) > 0 {
		qs = append(qs, Question{About: "keeps", Step: -1, Ask: fmt.Sprintf("Does it keep on the counter: %s?", list(unknown, 4)), Guess: "no, it is taken for cooked food: " + safety.CounterLimit(20).Figure() + " out of the cold", rank: 3})
	}
	if r.isBaked() {
		qs = append(qs, Question{About: "keeps", Step: -1, Ask: fmt.Sprintf("Does the %s keep on the counter once it is baked?", lower(r.Title)), Guess: "yes", rank: 3})
	}
	return qs
}
