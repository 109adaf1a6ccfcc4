package solve

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cp"
	"tureen/planner/partygen"
)

func ranges(ends ...int) []cp.Range {
	var out []cp.Range
	for i := 0; i < len(ends); i += 2 {
		out = append(out, cp.Range{From: ends[i], To: ends[i+1]})
	}
	return out
}

// TestRanges: what touches or overlaps is one; what lies between is the complement; starts leave room for a length.
func TestRanges(t *testing.T) {
	p, plan := partygen.Rich()
	m := modelOf(t, p, Ask{Now: plan.Made})
	lo, hi := m.spanStart(), m.spanEnd()
	if lo != m.now-1440 || hi != m.end+1440 {
		t.Errorf("hours bind from %d to %d, want a day before %d and after %d", lo, hi, m.now, m.end)
	}
	at := func(rs []cp.Range) []cp.Range { // from the span's start
		out := slices.Clone(rs)
		for i := range out {
			out[i].From, out[i].To = out[i].From+lo, out[i].To+lo
		}
		return out
	}
	end := hi - lo
	for _, c := range []struct {
		name      string
		got, want []cp.Range
	}{
		{"merged", mergeRanges(ranges(5, 7, 0, 2, 2, 3, 6, 6, 9, 12, 10, 11)), ranges(0, 3, 5, 7, 9, 12)},
		{"a minute apart", mergeRanges(ranges(0, 2, 3, 4)), ranges(0, 2, 3, 4)}, {"none", mergeRanges(nil), nil},
		{"the longer stays", mergeRanges(ranges(0, 9, 1, 3)), ranges(0, 9)},
		{"between", m.complement(at(ranges(10, 20, 30, 40))), at(ranges(0, 10, 20, 30, 40, end))},
		{"nothing before", m.complement(at(ranges(0, 20))), at(ranges(20, end))},
		{"nothing after", m.complement(at(ranges(10, end))), at(ranges(0, 10))},
		{"nothing at all", m.complement(at(ranges(-5, end+5))), nil}, {"all", m.complement(nil), at(ranges(0, end))},
		{"over before", m.complement(at(ranges(-9, -5, 10, end))), at(ranges(0, 10))},
		{"starts", m.noStart(at(ranges(10, 20)), 4), at(ranges(0, 10, 17, end))},
		{"starts of a length that just fits", m.noStart(at(ranges(10, 20)), 10), at(ranges(0, 10, 11, end))},
		{"of one that does not", m.noStart(at(ranges(10, 20)), 11), at(ranges(0, end))},
		{"of no length", m.noStart(at(ranges(10, 20)), 0), at(ranges(0, 10, 20, end))},
		{"reaching into", reaching(ranges(10, 20), 5), ranges(6, 20)},
		{"a minute", reaching(ranges(10, 20), 1), ranges(10, 20)},
		{"too few of two", m.tooFew([][]cp.Range{ranges(0, 10), ranges(5, 15)}, 1), ranges(5, 10)},
		{"too few of two for two", m.tooFew([][]cp.Range{ranges(0, 10), ranges(5, 15)}, 2), ranges(0, 15)},
		{"enough of three", m.tooFew([][]cp.Range{ranges(0, 10), ranges(5, 15), nil}, 1), nil},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	for minute, want := range map[int]bool{4: false, 5: true, 9: true, 10: false} {
		if inside(ranges(5, 10), minute) != want {
			t.Errorf("%d inside 5 to 10: %t", minute, !want)
		}
	}
}

// TestOpenRanges: windows are cut to the whole minutes that lie inside them.
func TestOpenRanges(t *testing.T) {
	p, plan := partygen.Rich()
	m := modelOf(t, p, Ask{Now: plan.Made})
	at := func(seconds int) time.Time { return m.instant(0).Add(time.Duration(seconds) * time.Second) }
	for _, c := range []struct {
		from, to int // seconds
		want     []cp.Range
	}{
		{0, 600, ranges(0, 10)}, {1, 600, ranges(1, 10)}, {0, 599, ranges(0, 9)}, {59, 61, nil}, {60, 120, ranges(1, 2)},
		{60, 119, nil}, {60, 60, nil}, {600, 0, nil},
	} {
		if got := m.openRanges([]planner.Window{{From: at(c.from), To: at(c.to)}}); !slices.Equal(got, c.want) {
			t.Errorf("from %d s to %d s: %v, want %v", c.from, c.to, got, c.want)
		}
	}
}

// TestForbidden: of what is forbidden only what an instant can be is kept.
func TestForbidden(t *testing.T) {
	p, plan := partygen.Rich()
	m := modelOf(t, p, Ask{Now: plan.Made})
	start := m.work[0].start
	lo, hi := m.bounds(start)
	for _, c := range []struct{ bar, want []cp.Range }{
		{ranges(lo-9, lo, lo+3, lo+5, hi+1, hi+9), ranges(lo+3, lo+5)}, {ranges(lo-9, lo+1), ranges(lo-9, lo+1)},
		{ranges(hi, hi+9), ranges(hi, hi+9)}, {ranges(lo-9, lo), nil}, {ranges(hi+1, hi+9), nil}, {nil, nil},
	} {
		before := len(m.cp.Calendars)
		m.forbid(start, c.bar, nil)
		var got []cp.Range
		if len(m.cp.Calendars) > before {
			got = m.cp.Calendars[before].Forbidden
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v of %d to %d: %v, want %v", c.bar, lo, hi, got, c.want)
		}
	}
}

// TestMarksAndHoursAgree: what a task's start may be is what the judge lets pass, minute by minute: on marks before the
// party's day where it takes a quarter of an hour, within hours, and with somebody at home to watch.
func TestMarksAndHoursAgree(t *testing.T) {
	move := func(plan *planner.Plan, k planner.TaskKey, by time.Duration) {
		pl := plan.Placed(k)
		for i := range pl.Uses {
			if u := &pl.Uses[i]; u.From.Equal(pl.Start) {
				u.From = u.From.Add(by)
				if u.To.Equal(pl.End) {
					u.To = u.To.Add(by)
				}
			}
		}
		pl.Start, pl.End = pl.Start.Add(by), pl.End.Add(by)
	}
	watch := func(p *planner.Party, _ *planner.Plan) {
		p.Dish("sorbet").Step("freeze").Attention = planner.Watch
		p.Dish("sorbet").Step("freeze").Serve.WorthUntil = 0
		for i := range p.People[:2] {
			p.People[i].Home = planner.DayHours{From: 7 * 60, Until: 22*60 + 30}
		}
	}
	for _, c := range []struct {
		name     string
		do       func(p *planner.Party, plan *planner.Plan)
		task     planner.TaskKey
		from, to int // minutes by which it is moved
		step     int
		both     bool // some that may be, some not
	}{
		{"a longer task of the day before", nil, "tart/dough", -11, 11, 1, true},
		{"one of fourteen minutes", func(p *planner.Party, plan *planner.Plan) {
			p.Dish("tart").Step("dough").Time = partygen.Exactly(14)
			pl := plan.Placed("tart/dough")
			pl.End = pl.Start.Add(14 * time.Minute)
			pl.Uses[0].To = pl.End
		}, "tart/dough", -6, 6, 1, false},
		{"one of fifteen minutes", func(p *planner.Party, plan *planner.Plan) {
			p.Dish("tart").Step("dough").Time = partygen.Exactly(15)
			pl := plan.Placed("tart/dough")
			pl.End = pl.Start.Add(15 * time.Minute)
			pl.Uses[0].To = pl.End
		}, "tart/dough", -6, 6, 1, true},
		{"short", nil, "soup/blend", -6, 6, 1, false}, {"the day itself", nil, "tart/custard", -6, 5, 1, false},
		{"to the end of the hours", func(p *planner.Party, _ *planner.Plan) {
			p.WorkHours = planner.DayHours{From: 0, Until: 24 * 60}
		}, "tart/dough", 265, 300, 5, true},
		{"to the night", nil, "tart/dough", 235, 270, 5, true},
		{"a watch to the night", func(p *planner.Party, plan *planner.Plan) {
			watch(p, plan)
			p.WorkHours = planner.DayHours{From: 0, Until: 21 * 60}
		}, "sorbet/freeze", -60, 0, 5, true},
		{"for two, or one that is long", nil, "table", -9, 9, 1, false},
		{"to the end of who is at home", watch, "sorbet/freeze", -30, 90, 5, true},
		{"over a way out", watch, "sorbet/freeze", -1965, -1835, 5, true},
	} {
		agreed := map[bool]int{}
		for by := c.from; by <= c.to; by += c.step {
			p, plan := partygen.Rich()
			if c.do != nil {
				c.do(p, plan)
			}
			move(plan, c.task, time.Duration(by)*time.Minute)
			broken := check.Plan(p, plan)
			err := Admits(p, Ask{Now: plan.Made}, plan)
			if (len(broken) == 0) != (err == nil) {
				t.Errorf("%s: moved by %d minutes the judge says %+v, the model %v", c.name, by, broken, err)
			}
			agreed[len(broken) == 0]++
		}
		if agreed[true] == 0 || agreed[false] == 0 && c.both {
			t.Errorf("%s: %v, want some that may be and some that may not", c.name, agreed)
		}
	}
}
