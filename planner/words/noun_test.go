package words_test

import (
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"tureen/planner/words"
)

// pairs are names for one thing and for several, checked by hand.
func pairs(t interface{ Fatal(...any) }) (out [][3]string) {
	text, err := os.ReadFile("testdata/pairs.tsv")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n")[1:] {
		cell := strings.Split(line, "\t")
		out = append(out, [3]string{cell[0], cell[1], cell[2]})
	}
	return out
}

func TestPairs(t *testing.T) {
	all := pairs(t)
	if len(all) < 400 {
		t.Fatalf("only %d pairs", len(all))
	}
	for _, p := range all {
		one, many := p[0], p[1]
		for _, c := range []struct{ what, got, want string }{
			{"Plural(" + one + ")", words.Plural(one), many}, {"Singular(" + many + ")", words.Singular(many), one},
			{"Plural(" + many + ")", words.Plural(many), many}, {"Singular(" + one + ")", words.Singular(one), one},
		} {
			if c.got != c.want {
				t.Errorf("%s: got %q, want %q", c.what, c.got, c.want)
			}
		}
	}
}

func TestOtherSpellingsAreRead(t *testing.T) {
	for many, one := range map[string]string{
		"mangos": "mango", "chillis": "chilli", "chilies": "chilli", "gateaus": "gateau", "octopi": "octopus",
		"fishes": "fish", "oils": "oil", "Bay Leaves": "Bay Leaf",
		"GLASSES": "GLASS", "gâteaux": "gâteau", "half-loaves": "half-loaf", "egg-yolks": "egg-yolk",
		"cactuses": "cactus", "sauces": "sauce", "": "", "s": "s", "  ": "  ",
		"shepherd's": "shepherd's", "confectioners'": "confectioners'",
	} {
		if got := words.Singular(many); got != one {
			t.Errorf("%q: got %q, want %q", many, got, one)
		}
	}
}

func TestCount(t *testing.T) {
	for _, c := range []struct {
		n          int
		name, want string
	}{
		{1, "baking tray", "1 baking tray"}, {2, "baking tray", "2 baking trays"},
		{3, "pie dish", "3 pie dishes"}, {2, "knife", "2 knives"},
		{2, "tin of tomatoes", "2 tins of tomatoes"}, {0, "tin", "0 tins"}, {2, "scissors", "2 scissors"},
		{2, "émaillé pie dish", "2 émaillé pie dishes"},
	} {
		if got := words.Count(c.n, c.name); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
	one, many := words.CountAs(1, "dish is", "dishes are"), words.CountAs(0, "dish is", "dishes are")
	if one != "1 dish is" || many != "0 dishes are" {
		t.Errorf("got %s, %s", one, many)
	}
}

// A word that the rules alone make many is made one again, unless its ending is one of those that English leaves open
// (cookie and cherry, quiche and peach: the table has them).
func TestRegularWordsComeBack(t *testing.T) {
	open := []string{"s", "z", "ie", "che", "she", "sse", "xe", "oe", "zze", "tze", "use", "u"}
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z]{4,9}`).Draw(t, "word")
		for _, o := range open {
			if strings.HasSuffix(word, o) {
				t.Skip()
			}
		}
		many := words.Plural(word)
		if got := words.Singular(many); got != words.Singular(word) {
			t.Fatalf("%s, %s, %s", word, many, got)
		}
	})
}

func FuzzNouns(f *testing.F) {
	for _, p := range pairs(f) {
		f.Add(p[0])
		f.Add(p[1])
	}
	f.Fuzz(func(t *testing.T, name string) {
		one, many := words.Singular(name), words.Plural(name)
		if again := words.Singular(one); again != one {
			t.Errorf("Singular(%q) is %q, and that of it %q", name, one, again)
		}
		if grown := len(many) - len(name); grown > 16 {
			t.Errorf("Plural(%q) is %q", name, many)
		}
		words.Count(2, name)
	})
}
