package bot

import (
	"fmt"
	"strings"
	"testing"
)

// table of a small dinner with four guests, of whom one says nothing.
func dinner(t *testing.T) *table {
	tb := supper(t)
	tb.must("Ana",
		"/dish add name:Walnut and feta salad course:main",
		"/ingredient add dish:walnut-and-feta-salad name:walnuts amount:100 g",
		"/ingredient add dish:walnut-and-feta-salad name:feta amount:200 g",
		"/ingredient add dish:walnut-and-feta-salad name:lettuce amount:2",
		"/dish add name:Mash course:main",
		"/ingredient add dish:mash name:potatoes amount:2 kg",
		"/ingredient add dish:mash name:butter amount:100 g",
		"/dish add name:Trifle course:main brought-by:Oona",
		"/guest add name:Piers allergies:walnuts",
		"/guest add name:Vera diets:vegan",
		"/guest add name:Mina advice:pregnant",
		"/guest add name:Oona",
	)
	return tb
}

func TestGuestTable(t *testing.T) {
	tb := dinner(t)
	rep := tb.must("Ana", "/guest table")
	if !rep.Private {
		t.Error("the table is for the cooks' eyes")
	}
	want := `
                        Piers  Vera   Mina
Starter
 Pumpkin soup           ?      ?      ?
Main
 Walnut and feta salad  no     no     check
 Mash                   free   no     free
 Trifle                 ?      ?      ?`
	if got := "\n" + strings.Join(rep.Tables[0].Lines, "\n"); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	got := plain(rep)
	for _, w := range []string{
		"no: it contains something", "check: it may contain it", "free: free of it, as far as", "?: unknown",
		"Walnut and feta salad, Piers: walnuts: contains nuts (walnut",
		"Mash, Vera: butter: not vegan (butter)",
		"Walnut and feta salad, Mina: feta: perhaps not in pregnancy (feta): no unpasteurized milk",
		"Mash, for Vera: for butter take dairy-free margarine",
		"Nothing is noted about Oona: ask",
		"the label and the guest decide",
	} {
		if !strings.Contains(got, w) {
			t.Errorf("the table lacks %q:\n%s", w, got)
		}
	}
	got = plain(tb.must("Ana", "/guest table lines:yes"))
	for _, w := range []string{"Walnut and feta salad: no for Piers and Vera; check for Mina",
		"Mash: no for Vera; free for Piers and Mina", "Trifle: ? for Piers, Vera and Mina"} {
		if !strings.Contains(got, w) {
			t.Errorf("the lines lack %q:\n%s", w, got)
		}
	}
	got = plain(tb.must("Ana", "/guest table guest:Mina"))
	if strings.Contains(got, "Vera") || strings.Contains(got, "Piers") || !strings.Contains(got, "feta") {
		t.Errorf("of Mina alone: %s", got)
	}
	got = plain(tb.must("Ana", "/guest table dish:mash"))
	if strings.Contains(got, "feta") || !strings.Contains(got, "butter") {
		t.Errorf("of the mash alone: %s", got)
	}
	// A guest may say otherwise, and care: and diets: leave each other alone.
	if got := plain(tb.must("Ana", "/guest change guest:Mina diets:vegetarian")); !strings.Contains(got,
		"Mina: vegetarian, pregnant") {
		t.Errorf("diets: takes care: away: %s", got)
	}
	if got := plain(tb.must("Ana", "/guest change guest:Mina advice:none")); !strings.Contains(got, "Mina: vegetarian.") {
		t.Errorf("care:none: %s", got)
	}
	if rep := tb.say("Ana", "/guest change guest:Mina advice:vegan"); !rep.Refused ||
		!strings.Contains(plain(rep), "pregnant, vulnerable, infant or small child") {
		t.Errorf("a diet is no care: %s", plain(rep))
	}
}

// TestGuestTableBig: many guests with long names and wide letters stay in columns, in several tables.
func TestGuestTableBig(t *testing.T) {
	tb := dinner(t)
	for _, name := range []string{"Maximiliane-Josephine", "山田太郎", "Ágnes", "Bo", "Cy", "Di", "Ed", "Flo"} {
		tb.must("Ana", "/guest add name:"+name+" diets:vegetarian")
	}
	rep := tb.must("Ana", "/guest table")
	if len(rep.Tables) < 2 {
		t.Fatalf("eleven guests in %d tables", len(rep.Tables))
	}
	for _, s := range rep.Tables {
		for _, line := range s.Lines {
			if n := cells(line); n > tableWidth {
				t.Errorf("%d wide: %s", n, line)
			}
		}
	}
}

// TestRestrictionsStayPrivate: whatever a member of the party asks, no answer that the channel sees names a guest
// together with what that guest does not eat; and who does not cook is told of it nowhere.
func TestRestrictionsStayPrivate(t *testing.T) {
	tb := dinner(t)
	tb.must("Ana", "/people add name:Lou role:onlooker",
		"/guest add name:Zebedee diets:vegan, halal allergies:celeriac note:tell nobody")
	said := []string{"celeriac", "tell nobody", "halal"}
	names := []string{"Zebedee", "Vera", "Mina", "Piers"}
	// that there is such a guest is no secret
	named := map[string]bool{"/journal": true, "/undo": true, "/redo": true, "/guest list": true}
	texts := []string{
		"/party show", "/dish list", "/dish show dish:mash", "/dish show dish:walnut-and-feta-salad",
		"/dish add name:Roast course:main",
		"/ingredient add dish:roast name:pork loin amount:2 kg", "/ingredient add dish:roast name:celery amount:1",
		"/ingredient change dish:roast ingredient:celery name:red wine",
		"/repertoire add dish:roast pork course:main", "/repertoire add dish:Lemon posset course:main",
		"/recipe line text:\"Ham pie, for 8: bake 40 min at 180\" course:main",
		"/dish change dish:roast covers:10", "/dish remove dish:mash", "/party change covers:12", "/journal", "/undo",
		"/redo", "/plan propose", "/plan make", "/plan show",
		"/plan runsheet", "/plan prep", "/plan labels", "/plan check", "/shopping list", "/drink list", "/task list", "/now",
		"/guest remove guest:Oona", "/guest list", "/guest table", "/help", "/help command:guest table",
		"/guest table guest:Zebedee", "/guest change guest:Zebedee note:tell nobody at all", "/undo",
	}
	tb.must("Ana", "/guest change guest:Zebedee note:tell nobody, never")
	for n := range tb.party().Revision + 3 { // every change so far, in the order of the journal
		text := fmt.Sprint("/journal change:", n+1)
		texts, named[text] = append(texts, text), true
	}
	for _, who := range []string{"Ana", "Lou"} {
		for _, text := range texts {
			rep := tb.say(who, text)
			if who == "Lou" && len(rep.Aside) > 0 {
				t.Errorf("Lou, who does not cook, is told aside after %s: %s", text, plain(rep))
			}
			if rep.Private && who == "Ana" {
				continue
			}
			rep.Aside = nil
			got := plain(rep)
			for _, s := range said {
				if strings.Contains(got, s) {
					t.Errorf("%s: %s is shown %q:\n%s", text, who, s, got)
				}
			}
			for _, s := range names {
				if strings.Contains(got, s) && !named[text] {
					t.Errorf("%s: %s is shown %q:\n%s", text, who, s, got)
				}
			}
		}
	}
}

// TestBroughtDish: what somebody brings is not bought for, and a plan needs nothing of it.
func TestBroughtDish(t *testing.T) {
	tb := recipeSupper(t)
	tb.must("Ana", "/repertoire add dish:Lemon posset", "/dish add name:Walnut cake course:dessert brought-by:Oona",
		"/ingredient add dish:walnut-cake name:walnuts amount:200 g shop:supermarket",
		"/ingredient add dish:walnut-cake name:flour amount:200 g have:yes",
		"/step add dish:walnut-cake name:slice do:Slice the cake time:5 min leaves:none",
		"/step serve step:walnut-cake/slice wait:counter", "/plan make")
	tb.holds()
	if got := plain(tb.must("Ana", "/shopping list")); strings.Contains(got, "walnut") || strings.Contains(got, "flour") ||
		!strings.Contains(got, "lemons") {
		t.Errorf("bought: %s", got)
	}
	if got := plain(tb.must("Ana", "/dish show dish:walnut-cake")); !strings.Contains(got, "brought by Oona") {
		t.Errorf("got %s", got)
	}
	tb.must("Ana", "/dish change dish:walnut-cake brought-by:none")
	if got := plain(tb.must("Ana", "/shopping list")); !strings.Contains(got, "walnut") {
		t.Errorf("made here, and not bought: %s", got)
	}
}
