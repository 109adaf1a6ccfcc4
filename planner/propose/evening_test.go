package propose_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/propose"
)

// TestKindOfParty: the words of a name, of courses, what is said to stand out and the hour tell how a party eats; what
// somebody says goes before.
func TestKindOfParty(t *testing.T) {
	for _, c := range []struct {
		name, course string
		hour         int
		want         planner.PartyKind
	}{
		{"Midsummer dinner", "Main", 19, planner.Plated},
		{"Ana's standing party", "Snacks", 19, planner.Standing},
		{"Drinks party for forty", "Main", 19, planner.Standing},
		{"Vernissage", "Main", 18, planner.Standing},
		{"Supper", "Nibbles", 19, planner.Standing},
		{"Cold buffet", "Main", 19, planner.Buffet},
		{"Cousins", "Buffet", 19, planner.Buffet},
		{"Garden grill", "Grill", 17, planner.Barbecue},
		{"BBQ", "Main", 18, planner.Barbecue},
		{"Easter brunch", "Main", 12, planner.Brunch},
		{"Sunday with the Kims", "Main", 10, planner.Brunch},
		{"Sharing plates on Friday", "Main", 19, planner.FamilyStyle},
		{"Grilled fish on Friday", "Main", 19, planner.Plated},
		{"Cocktails, then dinner", "Cocktails", 19, planner.Plated},
	} {
		at := time.Date(2026, time.October, 10, c.hour, 0, 0, 0, time.UTC)
		p := &planner.Party{Name: c.name, Zone: "UTC", Arrival: at, Courses: []planner.Course{{Key: planner.CourseKey(
			planner.Key(c.course)), Name: c.course}}}
		if c.want == planner.Plated && c.course == "Cocktails" {
			p.Name = "Dinner"
			p.Courses = append(p.Courses, planner.Course{Key: "main", Name: "Main"})
		}
		if got := portion.PartyKind(p); got != c.want {
			t.Errorf("%s, %s at %d: %s, want %s", c.name, c.course, c.hour, got, c.want)
		}
		p.Kind = planner.FamilyStyle
		if got := portion.PartyKind(p); got != planner.FamilyStyle {
			t.Errorf("%s: said to be family style, and taken for %s", c.name, got)
		}
	}
}

// TestEveningByKind: what each kind of party is asked to do, beside shopping and wine.
func TestEveningByKind(t *testing.T) {
	for kind, want := range map[planner.PartyKind]string{
		planner.Plated:      "lay-table last-things warm-main cold-dessert serve-main serve-dessert",
		planner.FamilyStyle: "lay-table last-things serve-main serve-dessert",
		planner.Brunch:      "lay-table last-things serve-main serve-dessert",
		planner.Buffet:      "lay-table set-out last-things",
		planner.Barbecue:    "lay-table set-out last-things",
		planner.Standing:    "lay-table set-out last-things",
	} {
		p := shelfParty(8, "beetroot", "beef braised", "raspberry granita")
		p.Kind, p.People[0].Dress, p.Drinks = kind, 0, nil
		var got []string
		for _, c := range propose.Chores(p) {
			if k := string(c.Key); !strings.HasPrefix(k, "shop") && !strings.HasPrefix(k, "leftovers") && c.Kind !=
				planner.Cool && k != "make-room" && k != "cupboard" && c.Kind != planner.Thaw {
				got = append(got, k)
			}
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: %s, want %s", kind, strings.Join(got, " "), want)
		}
	}
}

// TestTableOfForty: forty who stand want glasses and napkins, not forty places.
func TestTableOfForty(t *testing.T) {
	p := shelfParty(40, "rosemary almonds", "stuffed eggs")
	p.Name = "Standing party"
	if c := chore(p, "lay-table"); c.Time.Likely > 30 || strings.Contains(c.Do, "Lay the table") {
		t.Errorf("%s, %v", c.Do, c.Time)
	}
	p.Kind = planner.Plated
	if c := chore(p, "lay-table"); c.Time.Likely < 60 || !strings.Contains(c.Note, "silver") {
		t.Errorf("%s, %v, %s", c.Do, c.Time, c.Note)
	}
}

// TestIceByWhatIsDrunk: over ice, around bottles that have no place, out of doors; never for a white wine alone.
func TestIceByWhatIsDrunk(t *testing.T) {
	for _, c := range []struct {
		drink planner.Drink
		kind  planner.PartyKind
		want  bool
	}{
		{planner.Drink{Name: "Riesling", Kind: planner.White, Bottles: 4}, planner.Plated, false},
		{planner.Drink{Name: "Mineral water", Kind: planner.Soft, Bottles: 6}, planner.Plated, false},
		{planner.Drink{Name: "Cava", Kind: planner.Sparkling, Bottles: 6}, planner.Brunch, false},
		{planner.Drink{Name: "Tonic water", Kind: planner.Soft, Bottles: 4}, planner.Plated, true},
		{planner.Drink{Name: "Home-made lemonade", Kind: planner.Soft, Bottles: 4}, planner.Brunch, true},
		{planner.Drink{Name: "Ginger wine", Kind: planner.Red, Bottles: 2}, planner.Plated, false},
		{planner.Drink{Name: "Negroni", Kind: planner.Red, Bottles: 2}, planner.Plated, true},
		{planner.Drink{Name: "Rosé", Kind: planner.White, Bottles: 5}, planner.Barbecue, true},
		{planner.Drink{Name: "Rioja", Kind: planner.Red, Bottles: 5}, planner.Barbecue, false},
	} {
		p := shelfParty(8, "posset")
		p.Kind, p.Drinks = c.kind, []planner.Drink{c.drink}
		if got := chore(p, "ice").Key != ""; got != c.want {
			t.Errorf("%s at a %s party: ice %v, want %v", c.drink.Name, c.kind, got, c.want)
		}
	}
}

// TestServing: time between courses by covers, two pairs of hands from twelve on, none where guests help themselves.
func TestServing(t *testing.T) {
	small, large := shelfParty(6, "beetroot", "beef braised"), shelfParty(16, "beetroot", "beef braised")
	a, b := chore(small, "serve-main"), chore(large, "serve-main")
	if a.Hands != 1 || a.Time.Likely != 3 || b.Hands != 2 || b.Time.Likely != 4 || a.Kind != planner.Serve {
		t.Errorf("for 6: %+v; for 16: %+v", a, b)
	}
	large.Kind = planner.Buffet
	if c := chore(large, "serve-main"); c.Key != "" {
		t.Errorf("at a buffet: %+v", c)
	}
}

// TestNever: what a household never wants to be asked about is proposed no more, all of one sort at once.
func TestNever(t *testing.T) {
	p := shelfParty(8, "beetroot", "beef braised", "posset")
	p.Never = []planner.ChoreKey{"lay-table", "serve"}
	propose.Renew(p, p.Opens())
	if slices.ContainsFunc(p.Chores, func(c planner.Chore) bool {
		return c.Key == "lay-table" || c.Kind == planner.Serve
	}) ||
		p.Chore("last-things") == nil {
		t.Errorf("%+v", p.Chores)
	}
}

// TestCheeseOut: a board that no step takes out in time is taken out before its course, one that has one is not.
func TestCheeseOut(t *testing.T) {
	p := shelfParty(8, "cheese board")
	if c := chore(p, "cheese-out-cheese"); c.Key != "" {
		t.Errorf("its own step takes it out: %+v", c)
	}
	p.Dishes[0].Steps = nil
	if c := chore(p, "cheese-out-cheese"); c.Key == "" || c.By[0].Offset != -45 || c.By[0].Course != "cheese" {
		t.Errorf("nobody takes it out: %+v", c)
	}
}
