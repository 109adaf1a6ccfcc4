package store

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestTogether: amounts of two items that become one are added up; a word for what is no amount gives way to an amount,
// but for what is enough anyway; what cannot be read or added is said.
func TestTogether(t *testing.T) {
	for _, c := range []struct{ a, b, want, fault string }{
		{"", "", "", ""}, {"", "2", "2", ""}, {"2", "", "2", ""}, {"2", "3", "5", ""}, {"500 g", "1 kg", "1500 g", ""},
		{planner.AsNeeded, "2", "2", ""}, {"2", planner.AsNeeded, "2", ""}, {planner.AsNeeded, "", planner.AsNeeded, ""},
		{planner.Enough, "2", planner.Enough, ""}, {"2", planner.Enough, planner.Enough, ""},
		{"what?", "2", "", "what?"}, {"2", "what?", "", "what?"}, {"500 g", "2", "", "2"},
	} {
		got, err := together(c.a, c.b)
		if got != c.want || (err != nil) != (c.fault != "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%q and %q: %q, %v, want %q, %q", c.a, c.b, got, err, c.want, c.fault)
		}
	}
}

// TestJoined: of pieces that are one today the first in order gives the place; where none is there, none comes of it;
// and of two that cannot be added up nothing is lost silently.
func TestJoined(t *testing.T) {
	key := func(k string) pieceKey { return pieceKey{GoodPiece, k} }
	good := func(k, doc string, ord int64) piece { return piece{pieceKey: key(k), ord: ord, doc: doc} }
	was := []string{"cooky", "cookie"}
	pieces := map[pieceKey]piece{
		key("cookie"): good("cookie", `{"item":"cookie","have":"3","shop":"baker"}`, 7),
		key("cooky"):  good("cooky", `{"item":"cooky","have":"2","brings":"ada"}`, 4),
	}
	got, err := joined(key("cookie"), was, pieces)
	if err != nil || got == nil || got.ord != 4 || got.key != "cookie" {
		t.Fatalf("got %+v, %v", got, err)
	}
	for _, want := range []string{`"item":"cookie"`, `"have":"5"`, `"shop":"baker"`, `"brings":"ada"`} {
		if !strings.Contains(got.doc, want) {
			t.Errorf("%s lacks %s", got.doc, want)
		}
	}
	all := func(ord int64, a, price string) piece {
		return good("cooky", `{"item":"cooky","have":"1","shop":"`+a+`","section":"`+a+`","brings":"`+a+`","price":"`+price+
			`","per":"`+a+`","packs":[{"size":"`+a+`"},{"size":"12"}]}`, ord)
	}
	for price, want := range map[string]string{"2": `"price":"2","per":"first"`, "": `"price":"3","per":"second"`} {
		doc, err := joinedGoods("cookie", []piece{all(1, "first", price), all(2, "second", "3")})
		for _, want := range []string{`"shop":"first"`, `"section":"first"`, `"brings":"first"`, want, `"have":"2"`,
			`"packs":[{"size":"first"},{"size":"12"},{"size":"second"}]`} {
			if err != nil || !strings.Contains(string(doc), want) {
				t.Errorf("%s lacks %s, %v", doc, want, err)
			}
		}
	}
	if got, err := joined(key("bun"), []string{"bun"}, pieces); got != nil || err != nil {
		t.Errorf("nothing is there: %+v, %v", got, err)
	}
	pieces[key("cooky")] = good("cooky", `{"item":"cooky","have":"200 g"}`, 4)
	if _, err := joined(key("cookie"), was, pieces); err == nil {
		t.Error("three of them and 200 g are added up")
	}
}
