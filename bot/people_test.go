package bot

import (
	"reflect"
	"testing"

	"tureen/planner/check"
)

// Who comes to cook minds nobody's oven before they come and after they have gone, unless they are said to be there.
func TestWhoComesToCookIsThereToCook(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", "/party new name:Supper date:2026-09-26 arrive:19:00 covers:4 zone:Europe/Lisbon courses:main 20:00",
		"/people add name:Ben cooks:16:00-22:00", "/people add name:Cleo cooks:16:00-22:00 home:8:00-23:00",
		"/people add name:Dan")
	p := tb.party().Party
	for _, x := range p.People {
		home, cooks := p.HomeHours(&x), p.CookingHours(&x)
		if same := reflect.DeepEqual(home, cooks); same != (x.Name == "Ben") {
			t.Errorf("%s is there %v and cooks %v", x.Name, home, cooks)
		}
	}
	// So nobody minds a pot while the host is out for the shopping at noon; with Cleo away it waits for one of them.
	tb.must("Ana", "/people remove who:Cleo", "/people remove who:Dan",
		"/people hours who:Ana on:sat cooks:10:00-15:00 home:10:00-15:00",
		"/dish add name:Stock course:main serves:4",
		"/step add dish:stock name:simmer do:Simmer the stock time:3 h attention:watch burners:1 cooks:yes leaves:cooked",
		"/step serve step:stock/simmer wait:hot hold hold:burner longest:4 h")
	tb.must("Ana", "/plan make propose:no")
	snap := tb.party()
	pl := snap.Plan.Placed("stock/simmer")
	if pl == nil {
		t.Fatal("the stock is not planned")
	}
	there := false
	for _, x := range snap.Party.People {
		for _, w := range snap.Party.HomeHours(&x) {
			there = there || !pl.Start.Before(w.From) && !pl.End.After(w.To)
		}
	}
	if b := check.Plan(&snap.Party, snap.Plan); len(b) > 0 || !there {
		t.Errorf("it simmers from %v to %v with nobody there: %v", pl.Start, pl.End, b)
	}
}
