package store

import (
	"context"
	"testing"
)

// TestPartiesOfAnAccount: an account's parties are found in every community, and nobody else's, nor removed ones.
func TestPartiesOfAnAccount(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	here := create(t, s, home, supper()).Party.ID
	there := create(t, s, "others", supper()).Party.ID
	p := supper()
	p.Name, p.People = "Without Ada", p.People[1:]
	create(t, s, "others", p)
	p = supper()
	p.Name = "Removed"
	gone := create(t, s, "others", p).Party.ID
	if err := s.Remove(ctx, "others", ada, t0, gone); err != nil {
		t.Fatal(err)
	}
	got, err := s.PartiesOf(ctx, "u1")
	if err != nil || len(got) != 2 || got[0].ID != here || got[0].Community != home || got[1].ID != there ||
		got[1].Community != "others" || got[1].Name != "Autumn supper" {
		t.Errorf("got %+v, %v", got, err)
	}
	for _, account := range []string{"", "u9", "Ada", "ada"} {
		if got, err := s.PartiesOf(ctx, account); err != nil || len(got) != 0 {
			t.Errorf("%q has %+v, %v", account, got, err)
		}
	}
}
