package shopping

import (
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/propose"
	"tureen/planner/repertoire"
)

// TestRandomStories: whatever is ticked off, planned and changed, nothing is lost, never less than needed is bought,
// what was ticked off stays so, and the days make sense.
func TestRandomStories(t *testing.T) {
	var names []string
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := supper(rapid.IntRange(1, 30).Draw(t, "covers"))
		for _, n := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 1, 3, rapid.ID[string]).Draw(t, "menu") {
			c, _ := repertoire.Find(n)
			p.Dishes = append(p.Dishes, c.Dish())
		}
		propose.Renew(p, p.Opens())
		for range rapid.IntRange(0, 3).Draw(t, "ticks") {
			l := Of(p, nil)
			var open []*Line
			var trips []planner.ChoreKey
			for i := range l.Trips {
				l.Trips[i].Each(func(x *Line) {
					if !x.Ticked {
						open, trips = append(open, x), append(trips, l.Trips[i].Chore)
					}
				})
			}
			if len(open) == 0 {
				break
			}
			k := rapid.IntRange(0, len(open)-1).Draw(t, "which")
			x := open[k]
			Note(p, x, planner.Got{Amounts: x.Bought(), Trip: trips[k], By: "ada"})
			l = Of(p, nil)
			if o := openOf(&l, x.Item); o != nil && (o.BuyBy.IsZero() && len(l.Trips) == 1) {
				t.Fatalf("%s was ticked off and is still to be bought: %s", x.Name, o.Text())
			}
		}
		wantEnough(t, p)
		ticked := tickedItems(p)
		propose.Renew(p, p.Opens()) // planned anew
		if now := tickedItems(p); !slices.Equal(ticked, now) {
			t.Fatalf("ticked off before planning %v, after %v", ticked, now)
		}
		if rapid.Bool().Draw(t, "done") {
			for i := range p.Chores {
				if c := &p.Chores[i]; c.Kind == planner.Shop {
					end := saturday.Add(-24 * time.Hour)
					p.Work = append(p.Work, planner.Work{Task: planner.ChoreTask(c.Key), Progress: planner.Done, End: &end})
					break
				}
			}
			Settle(p, planner.TaskKey(rapid.SampledFrom([]string{"", "shop-supermarket"}).Draw(t, "told")))
		}
		p.Covers = rapid.IntRange(1, 40).Draw(t, "covers later")
		if rapid.Bool().Draw(t, "one dish less") {
			p.Dishes = p.Dishes[1:]
		}
		wantEnough(t, p)
		shuffled := clone(t, p)
		slices.Reverse(shuffled.Dishes)
		a, b := Of(p, nil), Of(shuffled, nil)
		if x, y := told(&a), told(&b); !slices.Equal(sums(x), sums(y)) {
			t.Fatalf("the order of the menu shows:\n%s\n\n%s", strings.Join(x, "\n"), strings.Join(y, "\n"))
		}
	})
}

// sums leaves out which trip has an item, since which of two comes first follows the menu's order.
func sums(lines []string) []string {
	var out []string
	for _, l := range lines {
		_, thing, _ := strings.Cut(l, ": ")
		out = append(out, thing)
	}
	slices.Sort(out)
	return out
}

func openOf(l *List, thing planner.Item) *Line {
	for i := range l.Trips {
		var found *Line
		l.Trips[i].Each(func(x *Line) {
			if x.Item == thing && !x.Ticked {
				found = x
			}
		})
		if found != nil {
			return found
		}
	}
	return nil
}

func tickedItems(p *planner.Party) []string {
	l := Of(p, nil)
	var out []string
	for _, s := range told(&l) {
		if strings.Contains(s, "✓") {
			out = append(out, s)
		}
	}
	return out
}

// wantEnough: by thing and kind of measure, what the dishes want, computed apart, is no more than what is in packages
// or loose on the trips and what was bought already. Trimmings are not in the ready dishes.
func wantEnough(t *rapid.T, p *planner.Party) {
	want, get := map[string]*big.Rat{}, map[string]*big.Rat{}
	put := func(to map[string]*big.Rat, thing planner.Item, q measure.Quantity, times *big.Rat) {
		if q.IsZero() {
			return
		}
		density := food.DensityOf(strings.TrimSuffix(string(thing), " (frozen)"))
		if w, err := measure.Weigh(q, density, measure.Gram); err == nil {
			q = w.High // where the density is known, all of it is compared as weight
		}
		kind := string(q.Unit().Kind())
		if q.Unit().Kind() == measure.Count {
			kind = "count " + string(q.Unit())
		}
		key := string(thing) + " in " + kind
		if to[key] == nil {
			to[key] = new(big.Rat)
		}
		v := new(big.Rat).Mul(q.High(), q.Unit().InBase())
		to[key].Add(to[key], v.Mul(v, times))
	}
	one := big.NewRat(1, 1)
	for _, d := range p.Dishes {
		for _, in := range d.Ingredients {
			q, err := measure.ParseWhole(in.Amount)
			if err != nil {
				t.Fatal(err)
			}
			if in.Have {
				continue
			}
			k := planner.ItemOf(in.Name, in.Frozen)
			if g, err := d.Grow(&in, q, d.Makes(p)); err == nil {
				q = g.Amount
			}
			put(want, k, q, one)
		}
	}
	text := func(thing planner.Item, amounts []string) {
		for _, a := range amounts {
			q, err := measure.ParseWhole(a)
			if err != nil {
				t.Fatal(err)
			}
			put(get, thing, q, one)
		}
	}
	l := Of(p, nil)
	for i := range l.Trips {
		l.Trips[i].Each(func(x *Line) {
			if !x.Ticked {
				text(x.Item, x.Bought())
			}
			if x.NotBefore.After(x.BuyBy) {
				t.Fatalf("%s: not before %s, by %s", x.Name, x.NotBefore, x.BuyBy)
			}
		})
	}
	for _, b := range p.Bought {
		for _, g := range b.Got {
			text(b.Item, g.Amounts)
		}
	}
	for k, v := range want {
		if get[k] == nil || get[k].Cmp(v) < 0 {
			t.Fatalf("%s: %v is bought for %v", k, get[k], v)
		}
	}
}

// TestDaysMakeSense: with a plan, for every line of ready dishes, not before comes no later than by, and by is no
// later than the first use.
func TestDaysMakeSense(t *testing.T) {
	var names []string
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := supper(8)
		for _, n := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 1, 5, rapid.ID[string]).Draw(t, "menu") {
			c, _ := repertoire.Find(n)
			p.Dishes = append(p.Dishes, c.Dish())
		}
		propose.Renew(p, p.Opens())
		plan := &planner.Plan{}
		for _, task := range planner.Tasks(p) { // any times at all: the list must make sense of them
			at := saturday.Add(-time.Duration(rapid.IntRange(0, 72*60).Draw(t, "minutes")) * time.Minute)
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: task.Key, Start: at, End: at.Add(10 * time.Minute)})
		}
		l := Of(p, plan)
		for i := range l.Trips {
			l.Trips[i].Each(func(x *Line) {
				if x.BuyBy.IsZero() || x.NotBefore.After(x.BuyBy) || x.BuyBy.After(x.FirstUse) {
					t.Fatalf("%s: not before %s, by %s, first used %s", x.Name, x.NotBefore, x.BuyBy, x.FirstUse)
				}
			})
		}
	})
}
