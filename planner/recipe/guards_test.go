package recipe

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner/words"
)

// stage is a part of a dish that can be made by itself.
type stage struct {
	name  string
	lines []string
	does  []string
}

var stages4 = []stage{
	{"sponge", []string{"150 g plain flour", "150 g butter, softened", "3 eggs"},
		[]string{
			"Beat the butter with the eggs and fold in the flour.",
			"Bake at 180 °C for 25 minutes.",
			"Leave to cool for 20 minutes.",
		}},
	{"sauce", []string{"400 g tomatoes, chopped", "2 cloves garlic, crushed", "2 tbsp olive oil"},
		[]string{
			"Warm the oil in a saucepan over a low heat and soften the garlic for 3 minutes.",
			"Add the tomatoes and simmer for 15 minutes.",
		}},
	{"salad", []string{"1 cucumber, sliced", "200 g radishes", "1 tbsp vinegar"},
		[]string{"Slice the radishes and toss them with the cucumber and the vinegar."}},
	{"custard", []string{"500 ml milk", "4 egg yolks", "50 g sugar"},
		[]string{
			"Whisk the yolks with the sugar in a bowl.",
			"Heat the milk, pour it over and stir over a low heat for 8 minutes.",
			"Chill for 2 hours.",
		}},
	{"stew", []string{"1 kg stewing beef, cubed", "2 carrots", "600 ml beef stock"},
		[]string{
			"Brown the beef in a casserole for 10 minutes.",
			"Peel and slice the carrots, add them with the stock and simmer for 2 hours, until tender.",
		}},
}

// text is a recipe of such parts, with something to do to each line.
func textOf4(parts []stage, line func(string) string) string {
	out := "A dish of parts\nServes 6\n\nIngredients\n"
	for _, p := range parts {
		out += "For the " + p.name + "\n" + strings.Join(p.lines, "\n") + "\n\n"
	}
	out += "Method\n"
	for _, p := range parts {
		for i, s := range p.does {
			if i == 0 {
				s = "For the " + p.name + ", " + strings.ToLower(s[:1]) + s[1:]
			}
			out += line(s)
		}
	}
	return out + line("Put everything on a large plate and serve.")
}

func read(t *rapid.T, text string) *Reading {
	r, err := Read(text)
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return r
}

// edges are what comes after what, by the steps' words.
func edges(r *Reading) []string {
	var out []string
	for i, after := range r.Order() {
		s := r.Steps[i]
		e := fmt.Sprintf("%s [%s %s %s %s]", s.Do, s.Attention, s.Heat, s.Where, s.Oven)
		var before []string
		for _, a := range after {
			before = append(before, r.Steps[a].Do)
		}
		slices.Sort(before)
		out = append(out, e+" after "+strings.Join(before, " + "))
	}
	slices.Sort(out)
	return out
}

func some(t *rapid.T) []stage {
	all := rapid.Permutation(stages4).Draw(t, "parts")
	return all[:rapid.IntRange(2, len(all)).Draw(t, "of them")]
}

func TestPartsChangePlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := some(t)
		plain := func(s string) string { return s + "\n" }
		one := edges(read(t, textOf4(parts, plain)))
		other := edges(read(t, textOf4(rapid.Permutation(parts).Draw(t, "otherwise"), plain)))
		if !slices.Equal(one, other) {
			t.Fatalf("one\n%s\nother\n%s", strings.Join(one, "\n"), strings.Join(other, "\n"))
		}
	})
}

func TestTheSameHoweverItStands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := some(t)
		one := edges(read(t, textOf4(parts, func(s string) string { return s + "\n" })))
		n := 0
		way := rapid.SampledFrom([]string{"bullet", "dot", "hyphen", "blank", "number", "number alone", "wrapped"}).
			Draw(t, "way")
		text := textOf4(parts, func(s string) string {
			n++
			switch way {
			case "bullet":
				s = "• " + s
			case "dot":
				s = "👉 " + s
			case "hyphen":
				s = "- " + s
			case "blank":
				s = strings.ReplaceAll(s, " ", "\u00a0")
			case "number":
				s = fmt.Sprintf("%d. %s", n, s)
			case "number alone":
				s = fmt.Sprintf("%d.\n%s", n, s)
			case "wrapped":
				return wrap(s, 60)
			}
			return s + "\n"
		})
		if other := edges(read(t, text)); !slices.Equal(one, other) {
			t.Fatalf("%s: one\n%s\nother\n%s\n%s", way, strings.Join(one, "\n"), strings.Join(other, "\n"), text)
		}
	})
}

// wrap breaks a line where it is full.
func wrap(s string, width int) string {
	out, n := "", 0
	for _, w := range strings.Fields(s) {
		if n > 0 && n+1+len(w) > width {
			out, n = out+"\n", 0
		} else if n > 0 {
			out, n = out+" ", n+1
		}
		out, n = out+w, n+len(w)
	}
	return out + "\n"
}

// Things that are said besides what is done, and what may be done with it later.
var besides = []string{
	"My grandmother loved this.",
	"It looks lovely on a blue plate.",
	"There is nothing better in winter.",
	"This keeps for 3 days in the fridge.",
	"Leftovers will keep for up to 4 days.",
	"It can be made up to 2 days ahead.",
	"Freezes well for up to 3 months.",
	"The colour should be deep by then.",
	"You will know when it is done.",
	"Store in an airtight tin for up to 1 week.",
	"Do not worry about lumps.",
	"Better the next day.",
}

func TestWhatIsSaidBesidesIsNoStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := some(t)
		said := map[int]string{}
		for range rapid.IntRange(1, 4).Draw(t, "how many") {
			said[rapid.IntRange(0, 10).Draw(t, "where")] = rapid.SampledFrom(besides).Draw(t, "what")
		}
		n := 0
		text := textOf4(parts, func(s string) string {
			n++
			if b := said[n]; b != "" {
				return s + " " + b + "\n"
			}
			return s + "\n"
		})
		r := read(t, text)
		long := 0
		for _, s := range r.Steps {
			for _, b := range besides {
				if strings.Contains(s.Do, strings.TrimRight(b, ".")) {
					t.Fatalf("%q is a step", s.Do)
				}
			}
			long = max(long, s.Time.High)
			if s.Attention == "hands" && s.Time.High >= 2*hour {
				t.Fatalf("%q is %s of work by hand", s.Do, s.Time)
			}
		}
		if long > 3*hour {
			t.Fatalf("a step of %d minutes in\n%s", long, r.Outline())
		}
		for i, b := range said {
			if i <= n && i > 0 && !slices.ContainsFunc(r.Remarks, func(m Remark) bool { return m.From.Text == b }) {
				t.Fatalf("%q is in no remark:\n%s\n%s", b, text, r.Outline())
			}
		}
	})
}

// Every word of the method lies in a step, a remark or what was left out.
func TestEveryWordLiesSomewhere(t *testing.T) {
	check := func(t interface{ Fatalf(string, ...any) }, text string) {
		r, err := Read(text)
		if err != nil {
			return
		}
		got := " " + r.Yield + " "
		for _, s := range r.Steps {
			got += " " + s.From.Text + " " + s.Do + " " + s.Section
		}
		for _, m := range r.Remarks {
			got += " " + m.From.Text
		}
		have := map[string]bool{}
		for _, w := range words.Apart(words.Small(got)) {
			have[w] = true
		}
		_, method, ok := strings.Cut(text, "Method\n")
		if !ok {
			return
		}
		for _, w := range words.Apart(words.Small(method)) {
			if !have[w] && len(w) > 3 && !strings.Contains(words.Small(got), w) && !leftOut[w] {
				t.Fatalf("%q lies nowhere:\n%s\n%s", w, method, r.Outline())
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		n := 0
		check(t, textOf4(some(t), func(s string) string {
			if n++; n%2 == 0 {
				s += " " + rapid.SampledFrom(besides).Draw(t, "what")
			}
			return s + "\n"
		}))
	})
}

// leftOut are words that a step says in its own way.
var leftOut = words.Set("oven preheat heat")

// Raw meat that no step heats is asked about; where one does it is not.
func TestRawMeatIsAskedAbout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		meat := rapid.SampledFrom([]string{"chicken breasts", "pork chops", "salmon fillets", "beef mince", "lamb steaks"}).
			Draw(t, "meat")
		first := rapid.SampledFrom([]string{"Season the %s with salt.", "Toss the %s with the oil.",
			"Put the %s into a dish."}).Draw(t, "first")
		cooks := rapid.SampledFrom([]string{"", "Fry for 10 minutes.", "Bake at 200 °C for 25 minutes.",
			"Grill for 8 minutes a side.", "Simmer in a pan for 20 minutes."}).Draw(t, "cooks")
		head := meat[strings.IndexByte(meat, ' ')+1:]
		text := fmt.Sprintf("Dinner for 4\n\nIngredients\n500 g %s\n2 tbsp oil\nsalt\n\nMethod\n", meat) +
			fmt.Sprintf(first, head) + "\n" + cooks + "\nServe with lemon."
		r := read(t, text)
		asked := slices.ContainsFunc(
			r.Questions,
			func(q Question) bool { return strings.Contains(q.Ask, "heats this") },
		)
		if asked != (cooks == "") {
			t.Fatalf("asked %t:\n%s\n%s", asked, text, r.Outline())
		}
	})
}

// proseOf4 is the same as textOf4 told in one go, with the amounts in the sentences.
var prose4 = []string{
	"Take a pound of flour and rub in half its weight of butter.",
	"Beat in 3 eggs and a wine-glass of brandy.",
	"Brown 2 kg pork shoulder in 3 tbsp oil, 8 minutes, in two batches.",
	"Slice 2 onions and lay them in a deep tin.",
	"Put the pork on top with half a litre of stock and cook in a low oven for three hours.",
	"While that happens boil a kilo of potatoes and mash them with 100 g butter.",
	"Whisk 4 egg yolks with 80 g sugar for 5 minutes.",
	"Heat 600 ml cream and pour it over, stirring.",
	"Spoon it into six glasses and chill for 2 hours.",
	"Soften 4 leeks in 50 g butter for ten minutes.",
	"Add 2 tins of beans, and 400 ml water, and simmer half an hour.",
	"My mother never measured anything.",
	"It keeps three days in the fridge.",
	"You can make it the day before.",
	"Your uncle had it with mustard (20 g or so).",
	"The rest of it, nobody knows, 3 minutes maybe.",
	"Serve with bread.",
}

// TestProseKeepsItsWords: in a text without a list of ingredients, every word is in a step or a remark, every
// amount is an ingredient's, and nothing takes days or two hours of hands.
func TestProseKeepsItsWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.Permutation(prose4).Draw(t, "sentences")
		all = all[:rapid.IntRange(4, len(all)).Draw(t, "of them")]
		joint := rapid.SampledFrom([]string{" ", "\n", "\n\n"}).Draw(t, "joint")
		text := "Sunday's dish\n\n" + strings.Join(all, joint)
		r, err := Read(text)
		if err != nil {
			return // fewer than two amounts: it is refused, with what to do
		}
		got := words.Small(r.Title + " " + r.Yield)
		for _, s := range r.Steps {
			got += " " + words.Small(s.From.Text)
			if s.Attention == "hands" && s.Time.High >= 2*hour || s.Time.High > 4*hour {
				t.Fatalf("%q takes %s:\n%s", s.Do, s.Time, text)
			}
		}
		for _, m := range r.Remarks {
			got += " " + words.Small(m.From.Text)
		}
		for _, s := range all {
			for _, w := range words.Apart(words.Small(s)) {
				if len(w) > 3 && !strings.Contains(got, w) {
					t.Fatalf("%q lies nowhere:\n%s\n%s", w, text, r.Outline())
				}
			}
		}
		for _, in := range []struct{ sentence, amount, name string }{
			{prose4[0], "½ lb", "butter"}, {prose4[1], "60 ml", "brandy"}, {prose4[5], "1 kg", "potatoes"},
			{prose4[10], "400 ml", "water"}, {prose4[9], "4", "leeks"},
		} {
			if slices.Contains(all, in.sentence) && !slices.ContainsFunc(r.Ingredients, func(g Ingredient) bool {
				return g.Name == in.name && g.Total().String() == in.amount
			}) {
				t.Fatalf("%s %s is none of the ingredients:\n%s\n%s", in.amount, in.name, text, r.Outline())
			}
		}
	})
}

// TestNoInstructionIsBought: a line with a verb of cooking and a time is what is done, wherever it stands.
func TestNoInstructionIsBought(t *testing.T) {
	lines := []string{"Simmer the stock for 20 minutes", "roast the peppers, 40 min", "Boil eggs 6 min.",
		"- Bake at 180 °C for 25 minutes.", "* Chill for 2 hours", "stew the fruit, low, 15 min"}
	rapid.Check(t, func(t *rapid.T) {
		parts := some(t)
		text := textOf4(parts, func(s string) string { return s + "\n" })
		do := rapid.SampledFrom(lines).Draw(t, "line")
		at := strings.Index(text, "\nMethod")
		text = text[:at] + "\n" + do + text[at:]
		r := read(t, text)
		for _, g := range r.Ingredients {
			if strings.Contains(g.Text, strings.Trim(do, "-* .")) {
				t.Fatalf("%q is bought:\n%s", g.Text, text)
			}
		}
	})
}
