package bot

import (
	"strings"
	"testing"
)

// TestUsualCourses: a course of a usual name comes with its first dish, at its usual time or between those that are
// there; another name is asked about.
func TestUsualCourses(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", "/party new name:Supper date:2026-09-26 arrive:19:00 covers:6 zone:Europe/Lisbon")
	for _, c := range []struct{ say, want string }{
		{"/dish add name:Stew course:main", "Main is a course now, at 20:15"},
		{"/dish add name:Leaves course:starters", "Starter is a course now, at 19:30"},
		{"/dish add name:Crumble course:pudding", "Dessert is a course now, at 21:15"},
		{"/course change course:dessert at:20:35", "20:35"},
		{"/dish add name:Stilton course:cheese", "Cheese is a course now, at 20:20"},
		{"/dish add name:Rice course:main course", "Rice is on the menu, as Main"},
		{"/repertoire add dish:posset", "as dessert"},
	} {
		if got := plain(tb.must("Ana", c.say)); !strings.Contains(got, c.want) {
			t.Errorf("%s: got\n%s\nwant %q", c.say, got, c.want)
		}
	}
	if rep := tb.say("Ana", "/dish add name:Bits course:oddments"); !rep.Refused {
		t.Errorf("a course of no usual name came by itself: %s", rep.Text)
	}
	if got := plain(tb.must("Ana", "/party show")); strings.Contains(got, "Oddments") {
		t.Errorf("what was refused is kept: %s", got)
	}
}

// TestCoursesWithoutTimes: the courses of a new party need no times where they are usual ones.
func TestCoursesWithoutTimes(t *testing.T) {
	tb := newTable(t)
	got := plain(tb.must("Ana", "/party new name:Supper date:2026-09-26 arrive:19:00 covers:6 zone:Europe/Lisbon "+
		"courses:starter, main 20:00, dessert"))
	if want := "Starter 19:30, Main 20:00, Dessert 21:15"; !strings.Contains(got, want) && !strings.Contains(got,
		strings.Replace(want, "Main", "main", 1)) {
		t.Errorf("got\n%s\nwant %q", got, want)
	}
	if strings.Contains(got, "is a course now") {
		t.Errorf("what was asked for is told as news: %s", got)
	}
}

// TestReadingAddsNoCourse: a course that only a reading tells of is offered, and comes with what is kept.
func TestReadingAddsNoCourse(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", "/party new name:Supper date:2026-09-26 arrive:19:00 covers:6 zone:Europe/Lisbon")
	rep := tb.must("Ana", `/recipe read text:"Lemon pots for 6. Take 400 ml double cream, 150 g sugar and 2 lemons. Boil `+
		`the cream and sugar for 3 minutes. Stir in the juice. Chill for 4 hours."`)
	if got := plain(rep); !strings.Contains(got, "Keep it: Dessert") || strings.Contains(got, "is a course now") {
		t.Errorf("the reading says\n%s", got)
	}
	if got := tb.party().Party.Courses; len(got) != 0 {
		t.Errorf("a reading added %v", got)
	}
	got := plain(tb.must("Ana", "/recipe keep course:dessert"))
	if !strings.Contains(got, "Dessert is a course now, at 21:15") {
		t.Errorf("keeping says\n%s", got)
	}
	// Where a course that was called so has another name now, it is asked about.
	tb.must("Ana", "/course change course:dessert name:Petits fours")
	if rep := tb.say("Ana", "/dish add name:Crumble course:pudding"); !rep.Refused {
		t.Errorf("the crumble went somewhere: %s", rep.Text)
	}
}
