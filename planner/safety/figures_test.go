package safety

import (
	"strconv"
	"strings"
	"testing"
)

// TestFiguresOfAllShapes: a limit is said with its side, its heat and its time, by what it is about.
func TestFiguresOfAllShapes(t *testing.T) {
	heat := Limit{ID: "x", Heated: true, TempC: 4, TempF: 40}
	with := func(l Limit, topic Topic, bound Bound, timed bool, minutes int) Limit {
		l.Topic, l.Bound, l.Timed, l.Minutes, l.Note = topic, bound, timed, minutes, "as the note says"
		return l
	}
	bare := Limit{ID: "x"}
	for _, c := range []struct {
		l    Limit
		want string
	}{
		{with(bare, ThawAfter, Rule, true, 0), "at once"},
		{with(bare, ThawAfter, AtMost, true, 0), "at most 0 min"},
		{with(bare, RestTime, Rule, true, 3), "3 min"},
		{with(bare, RestTime, AtLeast, true, 3), "at least 3 min"},
		{with(heat, Cooling, AtMost, true, 120), "down to 4 °C (40 °F) within 2 h"},
		{with(bare, Cooling, AtMost, true, 120), "at most 2 h"},
		{with(heat, Refrigerator, AtMost, true, 2880), "at most 2 days at 4 °C (40 °F) or below"},
		{with(heat, ThawAfter, AtMost, true, 2880), "at most 2 days at 4 °C (40 °F) or below"},
		{with(bare, Refrigerator, AtMost, true, 2880), "at most 2 days"},
		{with(heat, CookTemp, AtLeast, true, 1), "at least 4 °C (40 °F) for 1 min"},
		{with(heat, TimeOut, AtMost, true, 60), "at most 1 h"},
		{with(heat, CookTemp, AtLeast, false, 0), "at least 4 °C (40 °F)"},
		{with(heat, HotHolding, AtMost, false, 0), "at most 4 °C (40 °F)"},
		{with(bare, CookTemp, Rule, false, 0), "as the note says"},
	} {
		if got := c.l.Figure(); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.l, got, c.want)
		}
	}
	if got := with(bare, RestTime, AtLeast, true, 3).String(); got != "at least 3 min ()" {
		t.Errorf("the source goes with it in brackets: got %q", got)
	}
	if got := (Limit{}).String(); got != "no published limit" {
		t.Errorf("the zero limit: got %q", got)
	}
}

// TestRules: what is published as a rule has its row, its note and no figure (USDA FSIS, foodsafety.gov: limits.csv
// names the copies that were read).
func TestRules(t *testing.T) {
	for _, c := range []struct {
		l         Limit
		authority Authority
		note      string
	}{
		{PartialCooking(), "USDA FSIS", "never brown or part-cook"},
		{limit("thaw-counter"), "USDA FSIS", "not safe"},
	} {
		if c.l.Bound != Rule || c.l.Timed || c.l.Heated || c.l.Authority != c.authority ||
			!strings.Contains(c.l.Note, c.note) || c.l.Figure() != c.l.Note {
			t.Errorf("%+v: want a rule of %s that says %q", c.l, c.authority, c.note)
		}
	}
	for _, k := range Kinds() {
		if got := RestAfterCooking(k); got.Applies() != (k == RedMeat) || k == RedMeat && got.Minutes != 3 {
			t.Errorf("%s rests for %s", k, got)
		}
		if got := RefrigeratorLimit(k); got.Applies() != (k != None) {
			t.Errorf("%s has the limit %v", k, got)
		}
		if got := CookTo(k); k == None && got.Applies() {
			t.Errorf("what needs no limit is cooked to %s", got)
		}
		if got := KeepsAfterThaw(k, InRefrigerator); k == None && got.Applies() {
			t.Errorf("what needs no limit keeps for %s", got)
		}
	}
	if note := limit("thaw-water").Note; !strings.Contains(note, strconv.Itoa(WaterChangeMinutes)+" min") {
		t.Errorf("thawing water is changed every %d minutes, but published is %q", WaterChangeMinutes, note)
	}
}

// TestTablesAreRead: a row's temperature is its last figure, its times are minutes whatever their unit, a single end
// stands for both; what cannot be read is an error.
func TestTablesAreRead(t *testing.T) {
	row := func(pairs ...string) map[string]string {
		m := map[string]string{"id": "x", "topic": "t", "op": "max", "authority": "a", "source": "s", "how": "h",
			"note": "n", "subject": "j"}
		for i := 0; i < len(pairs); i += 2 {
			m[pairs[i]] = pairs[i+1]
		}
		return m
	}
	base := Limit{ID: "x", Topic: "t", Subject: "j", Bound: AtMost, Authority: "a", Source: "s", How: "h", Note: "n"}
	timed := func(from, to int) Limit {
		l := base
		l.Timed, l.From, l.Minutes = true, from, to
		return l
	}
	heated := func(f, c float64) Limit {
		l := base
		l.Heated, l.TempF, l.TempC = true, f, c
		return l
	}
	rule := base
	rule.Bound = Rule
	for _, c := range []struct {
		row  map[string]string
		want Limit
	}{
		{row(), base}, {row("op", "range"), rule}, {row("op", ""), rule},
		{row("temp_f", "<=90", "temp_c", "<=32"), heated(90, 32)},
		{row("temp_f", "40-140", "temp_c", "4-60"), heated(140, 60)},
		{row("temp_f", "135 to 70", "temp_c", "57 to 21.1"), heated(70, 21.1)},
		{row("temp_f", "0", "temp_c", "-18"), heated(0, -18)},
		{row("temp_f", "90"), base}, {row("temp_c", "90"), base},
		{row("unit", "h", "min", "1", "max", "2"), timed(60, 120)}, {row("unit", "h", "max", "2"), timed(120, 120)},
		{row("unit", "h", "min", "2"), timed(120, 120)}, {row("unit", "min", "max", "3"), timed(3, 3)},
		{row("unit", "d", "max", "1.5"), timed(2160, 2160)}, {row("unit", "s", "max", "120"), timed(2, 2)},
		{row("unit", "h"), base}, {row("max", "3"), base}, {row("unit", "times", "max", "1"), base},
		{row("unit", "h per 4-5 lb", "max", "24"), timed(1440, 1440)},
		{row("unit", "min per lb", "min", "30"), timed(30, 30)},
	} {
		if got, err := readLimit(c.row); err != nil || got != c.want {
			t.Errorf("%v: got %+v (%v), want %+v", c.row, got, err, c.want)
		}
	}
	for _, bad := range []map[string]string{
		row("temp_f", "hot", "temp_c", "30"), row("temp_f", "90", "temp_c", "hot"),
		row("unit", "h", "max", "few", "min", "2"), row("unit", "h", "max", "2", "min", "few"),
	} {
		if got, err := readLimit(bad); err == nil {
			t.Errorf("%v: read as %+v", bad, got)
		}
	}
}

// TestTablesOfOurOwn: a fault in the embedded tables is met at once.
func TestTablesOfOurOwn(t *testing.T) {
	for name, do := range map[string]func(){
		"no such row":        func() { limit("nothing") },
		"no such row, named": func() { tables().named("counter nothing") },
		"no table":           func() { records("none.csv", "") },
		"no even table":      func() { records("odd.csv", "a,b\n1\n") },
	} {
		func() {
			defer func() {
				if said, _ := recover().(string); !strings.HasPrefix(said, "safety: ") {
					t.Errorf("%s: it goes unnoticed, or says %q", name, said)
				}
			}()
			do()
		}()
	}
	got := records("good.csv", "a,b\n1,2\n3,4\n")
	if len(got) != 2 || got[0]["a"] != "1" || got[0]["b"] != "2" || got[1]["a"] != "3" || got[1]["b"] != "4" {
		t.Errorf("got %v", got)
	}
	if got := tables().named("counter counter-hot-day"); len(got) != 2 || got[0].ID != "counter" {
		t.Errorf("got %v", got)
	}
}

// TestStrictest: of limits the one that leaves the least room, the first of equal ones.
func TestStrictest(t *testing.T) {
	time := func(id string, minutes int) Limit { return Limit{ID: id, Timed: true, Bound: AtMost, Minutes: minutes} }
	heat := func(id string, b Bound, f float64) Limit { return Limit{ID: id, Heated: true, Bound: b, TempF: f} }
	for _, c := range []struct {
		rows []Limit
		want string
	}{
		{nil, ""}, {[]Limit{time("a", 2), time("b", 1), time("c", 3)}, "b"}, {[]Limit{time("a", 1), time("b", 1)}, "a"},
		{[]Limit{heat("a", AtLeast, 1), heat("b", AtLeast, 2)}, "b"},
		{[]Limit{heat("a", AtLeast, 2), heat("b", AtLeast, 2)}, "a"},
		{[]Limit{heat("a", AtMost, 2), heat("b", AtMost, 1)}, "b"},
		{[]Limit{heat("a", AtMost, 1), heat("b", AtMost, 2)}, "a"},
		{[]Limit{{ID: "a"}, heat("b", AtLeast, 2)}, "b"}, {[]Limit{heat("a", AtLeast, 2), {ID: "b"}}, "a"},
	} {
		if got := strictest(c.rows); got.ID != c.want {
			t.Errorf("%v: got %q, want %q", c.rows, got.ID, c.want)
		}
	}
}
