package partygen

import (
	"fmt"
	"time"

	"tureen/planner"
)

// Size says how big a random party is; both numbers of a pair are included.
type Size struct {
	Dishes, People [2]int
	// Tight is how many times in a hundred something is made scarce, so that some parties have no plan.
	Tight int
	// Fits is how many times in a hundred a pan or a shelf is enough for few covers only; with 0 the kitchen's things
	// have neither size nor measure.
	Fits int
}

// AnySize is 2 to 10 dishes and 1 to 4 people, a third of the time with something scarce.
var AnySize = Size{Dishes: [2]int{2, 10}, People: [2]int{1, 4}, Tight: 12, Fits: 25}

// Draw makes a random party that makes sense, and the instant at which it is planned. Keys and choices are
// plausible for a home; the amounts and dishes mean nothing.
func Draw(d Dice, size Size) (*planner.Party, time.Time) {
	g := &drawing{Dice: d, size: size}
	zone := pick(d, "Europe/Lisbon", "Europe/Lisbon", "America/New_York", "Asia/Kathmandu", "UTC")
	loc, err := time.LoadLocation(zone)
	if err != nil {
		panic(err) // tzdata is embedded
	}
	// The last two are days on which a clock of one of the zones changes.
	day := pick(d, "2026-09-26", "2026-12-31", "2027-02-14", "2026-10-25", "2026-11-01")
	date, err := time.ParseInLocation(time.DateOnly, day, loc)
	if err != nil {
		panic(err)
	}
	y, m, dd := date.Date()
	arrival := time.Date(y, m, dd, d.Roll(17, 20), pick(d, 0, 15, 30), 0, 0, loc).UTC()
	g.p = &planner.Party{ID: 1, Name: "Party", Zone: zone, Arrival: arrival, Covers: d.Roll(2, 12), PrepDays: d.Roll(0, 3)}
	if chance(d, 10) {
		g.p.RoomTemperatureC = pick(d, 18, 25, 33)
	}
	g.kitchen()
	g.people()
	g.courses()
	for n := d.Roll(size.Dishes[0], size.Dishes[1]); len(g.p.Dishes) < n; {
		g.dish(len(g.p.Dishes))
	}
	for i := range g.p.Dishes {
		g.made(&g.p.Dishes[i], 35)
	}
	g.neverChilled()
	g.chores()
	g.claims()
	now := g.p.Opens().Add(time.Duration(d.Roll(0, 10)) * time.Hour).UTC()
	return g.p, now
}

type drawing struct {
	Dice
	size Size
	p    *planner.Party
}

func (g *drawing) scarce() bool { return chance(g, g.size.Tight) }

func (g *drawing) kitchen() {
	k := planner.HomeKitchen()
	if g.size.Fits == 0 {
		k = unmeasured(k)
	}
	if chance(g, 40) {
		k.Ovens = append(k.Ovens, planner.Oven{Name: "second oven", Shelves: 1, MinC: 50, MaxC: 230, Preheat: 10, Rise: 5,
			Fall: 12})
	}
	k.Burners, k.Counter = g.Roll(2, 5), g.Roll(2, 4)
	k.Refrigerator.Millilitres = g.Roll(20, 60) * 1000
	if g.scarce() {
		k.Burners = 1
	}
	if g.scarce() {
		k.Refrigerator = planner.Cold{Millilitres: 4000, Flat: 1}
	}
	g.p.Kitchen = given(k)
}

// given is a kitchen of which the hosts have said every figure, so that each of them binds.
func given(k planner.Kitchen) planner.Kitchen {
	for _, list := range [][]planner.Ware{k.Vessels, k.Plates} {
		for i := range list {
			list[i].Given = true
		}
	}
	k.Refrigerator.Given, k.Refrigerator.FlatGiven, k.Freezer.Given, k.Freezer.FlatGiven = true, true, true, true
	return k
}

// unmeasured is a kitchen of whose things nobody has said how large they are.
func unmeasured(k planner.Kitchen) planner.Kitchen {
	for _, list := range [][]planner.Ware{k.Appliances, k.Vessels} {
		for i := range list {
			list[i] = planner.Ware{Name: list[i].Name, Count: list[i].Count}
		}
	}
	return k
}

func (g *drawing) people() {
	names := []planner.PersonKey{"ana", "ben", "cleo", "dan"}
	for i, key := range names[:g.Roll(g.size.People[0], g.size.People[1])] {
		x := planner.Person{Key: key, Name: string(key), Role: planner.CoHost}
		x.Cooks = planner.DayHours{From: 60 * minutes(g, 8, 13), Until: 60 * minutes(g, 19, 23)}
		x.Home = planner.DayHours{From: x.Cooks.From - 60, Until: min(x.Cooks.Until+60, 24*60-1)}
		if i == 0 {
			x.Role = planner.Host
		} else if g.scarce() { // comes for the evening only
			x.Cooks = planner.DayHours{}
			x.Home = planner.DayHours{}
			x.Days = []planner.OtherDay{{Date: g.p.Day().Format(time.DateOnly),
				Cooks: []planner.DayHours{{From: 60 * minutes(g, 16, 18), Until: 60 * 24}},
				Home:  []planner.DayHours{{From: 60 * 16, Until: 60 * 24}}}}
		}
		if chance(g, 40) {
			x.Skills = []string{"pastry"}
		}
		g.p.People = append(g.p.People, x)
	}
}

func (g *drawing) courses() {
	at := g.p.Arrival.Add(time.Duration(pick(g, 30, 45, 60)) * time.Minute)
	for i, key := range []planner.CourseKey{"starter", "main", "cheese", "dessert"}[:g.Roll(1, 4)] {
		c := planner.Course{Key: key, Name: string(key)}
		s := planner.Serving{At: at, Early: minutes(g, 0, 15), Late: minutes(g, 5, 30)}
		if chance(g, 15) && i > 0 {
			c.Servings = append(c.Servings, planner.Serving{Group: "children", At: at.Add(-20 * time.Minute), Early: 10,
				Late: 10})
		}
		c.Servings = append(c.Servings, s)
		g.p.Courses = append(g.p.Courses, c)
		at = at.Add(time.Duration(pick(g, 30, 40, 45, 60)) * time.Minute)
	}
}

func (g *drawing) chores() {
	if chance(g, 50) {
		by := planner.Anchor{Arrival: true, Offset: -30}
		if first := g.p.Dishes[0].Steps[0].Key; chance(g, 50) {
			by = planner.Anchor{Task: planner.StepTask(g.p.Dishes[0].Key, first, 1)}
		}
		g.p.Chores = append(g.p.Chores, planner.Chore{Key: "shopping", Kind: planner.Shop, Do: "Shop",
			Attention: planner.Hands,
			Time:      spread(minutes(g, 20, 60)), Away: true, By: []planner.Anchor{by},
			Open: pick(g, planner.DayHours{}, planner.DayHours{From: 9 * 60, Until: 19 * 60})})
	}
	if chance(g, 50) {
		g.p.Chores = append(g.p.Chores, planner.Chore{Key: "table", Kind: planner.LayTable, Do: "Lay the table",
			Attention: planner.Hands,
			MaxHands:  g.Roll(1, 2), Time: spread(minutes(g, 10, 30)),
			By: []planner.Anchor{{Arrival: true, Within: 60 * minutes(g, 4, 30)}}})
	}
	if chance(g, 40) {
		g.p.Chores = append(g.p.Chores, planner.Chore{Key: "wine", Kind: planner.Chill, Do: "Chill the wine",
			Attention: planner.Unattended,
			Time:      spread(120), Where: planner.Refrigerator, Leaves: planner.Food{Millilitres: 1000 * g.Roll(1, 4)},
			By: []planner.Anchor{{Course: g.p.Courses[0].Key}}})
	}
	if chance(g, 30) {
		host := g.p.People[0].Key
		g.p.Chores = append(g.p.Chores, planner.Chore{Key: "dress", Kind: planner.Dress, Do: "Dress",
			Attention: planner.Hands,
			Time:      spread(minutes(g, 10, 30)), Who: planner.Who{Person: host},
			By: []planner.Anchor{{Arrival: true, Within: 180}}})
	}
}

// claims gives some tasks to people who may do them.
func (g *drawing) claims() {
	for _, t := range planner.Tasks(g.p) {
		if t.Who != (planner.Who{}) || !chance(g, 6) {
			continue
		}
		x := g.p.People[g.Roll(0, len(g.p.People)-1)]
		g.p.Work = append(g.p.Work, planner.Work{Task: t.Key, Person: x.Key})
	}
}

func (g *drawing) course() planner.CourseKey { return g.p.Courses[g.Roll(0, len(g.p.Courses)-1)].Key }

func dishKey(n int) planner.DishKey { return planner.DishKey(fmt.Sprintf("dish-%c", 'a'+n)) }
