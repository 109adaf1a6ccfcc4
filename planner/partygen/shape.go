package partygen

import (
	"fmt"
	"time"

	"tureen/planner"
)

// Shape says what a party of the shape that a home has looks like: unlike Draw's, its dishes are of kinds that people
// cook, its people have evenings on working days and the last day, and there is a plan more often than not.
type Shape struct {
	Dishes int `json:"dishes"`
	People int `json:"people"` // one host, then co-hosts
	Ovens  int `json:"ovens"`  // 1 or 2
	Days   int `json:"days"`   // the party's day included
}

// ShapeDay is the day of every shaped party, a Saturday.
const ShapeDay = "2026-09-26"

// Shaped draws a party of a shape, and the instant at which it is planned: noon of the day before its first. All its
// lengths and hours are on the five-minute grid. Lengths, amounts and temperatures are common practice, no source.
func Shaped(d Dice, s Shape) (*planner.Party, time.Time) {
	g := &shaping{Dice: d, shape: s}
	loc, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		panic(err) // tzdata is embedded
	}
	day, err := time.ParseInLocation(time.DateOnly, ShapeDay, loc)
	if err != nil {
		panic(err)
	}
	y, m, dd := day.Date()
	g.at = func(back, hour, minute int) time.Time {
		return time.Date(y, m, dd-back, hour, minute, 0, 0, loc).UTC()
	}
	g.p = &planner.Party{ID: 1, Name: "Dinner", Zone: "Europe/Lisbon", Arrival: g.at(0, 19, pick(d, 0, 15, 30)),
		Covers: d.Roll(4, 12), PrepDays: s.Days - 1, Kitchen: g.shapedKitchen()}
	g.shapedCourses()
	for i := range s.People {
		g.shapedPerson(i)
	}
	for i := range s.Dishes {
		g.shapedDish(i)
	}
	g.shapedChores()
	g.shapedClaims()
	return g.p, g.at(s.Days, 12, 0)
}

type shaping struct {
	Dice
	shape Shape
	p     *planner.Party
	at    func(back, hour, minute int) time.Time // back days before the party's
	kinds []int                                  // of the dishes so far
}

func (g *shaping) shapedKitchen() planner.Kitchen {
	k := unmeasured(planner.HomeKitchen())
	k.Ovens[0].Shelves = g.Roll(2, 3)
	if g.shape.Ovens > 1 {
		k.Ovens = append(k.Ovens, planner.Oven{Name: "second oven", Shelves: g.Roll(1, 2), MinC: 50, MaxC: 230,
			Preheat: 10, Rise: 5, Fall: 15})
	}
	for _, ware := range [][]planner.Ware{k.Vessels, k.HotPlaces} { // who cooks so much has more to cook in
		for i := range ware {
			ware[i].Count += g.shape.Dishes / 10
		}
	}
	k.Counter = g.Roll(2, 4)
	k.Refrigerator = planner.Cold{Millilitres: 1000 * (20 + 2*g.shape.Dishes + g.Roll(0, 20)),
		Flat: 3 + g.shape.Dishes/4 + g.Roll(0, 2)}
	return given(k)
}

// shapedCourses are three, and with many dishes five.
func (g *shaping) shapedCourses() {
	names := []planner.CourseKey{"starter", "main", "dessert"}
	if g.shape.Dishes > 12 {
		names = []planner.CourseKey{"nibbles", "starter", "main", "cheese", "dessert"}
	}
	at := g.p.Arrival.Add(time.Duration(pick(g, 15, 30)) * time.Minute)
	for _, k := range names {
		g.p.Courses = append(g.p.Courses, planner.Course{Key: k, Name: string(k),
			Servings: []planner.Serving{{At: at, Early: 10, Late: pick[planner.Minutes](g, 15, 20)}}})
		at = at.Add(time.Duration(pick(g, 35, 40, 45)) * time.Minute)
	}
}

// shapedPerson has evenings on working days and most of the party's day; some work away on some days.
func (g *shaping) shapedPerson(i int) {
	key := []planner.PersonKey{"ana", "ben", "cleo", "dan", "eva", "finn"}[i]
	x := planner.Person{Key: key, Name: string(key), Role: planner.CoHost, Home: g.hours(17, 17, 23)}
	if i == 0 {
		x.Role, x.Dress = planner.Host, 30
	}
	evening := g.hours(18, 19, 22)
	x.Cooks = evening
	for back := range g.shape.Days {
		other := planner.OtherDay{Date: g.at(back, 12, 0).In(g.p.Location()).Format(time.DateOnly)}
		switch {
		case back == 0:
			day := g.hours(9+min(i, 1)*pick(g, 0, 1, 4), 12, 23)
			day.Until = 23 * 60
			other.Cooks = []planner.DayHours{day}
			other.Home = []planner.DayHours{{From: day.From - 60, Until: 24 * 60}}
		case i > 0 && chance(g, 30): // not there
		case back > 2 || !chance(g, 30):
			continue
		default: // an afternoon off
			off := g.hours(14, 16, 18)
			other.Cooks = []planner.DayHours{off}
			other.Home = []planner.DayHours{{From: off.From - 30, Until: 23 * 60}}
		}
		x.Days = append(x.Days, other)
	}
	if chance(g, 40) {
		x.Skills = []string{"pastry"}
	}
	g.p.People = append(g.p.People, x)
}

// hours begin between two hours, on the grid, and end at one.
func (g *shaping) hours(from, most, until int) planner.DayHours {
	return planner.DayHours{From: planner.Minutes(5 * g.Roll(12*from, 12*max(from, most))),
		Until: planner.Minutes(60 * until)}
}

func (g *shaping) shapedChores() {
	hands := func(key planner.ChoreKey, kind planner.ChoreKind, do string, length planner.Minutes) planner.Chore {
		return planner.Chore{Key: key, Kind: kind, Do: do, Attention: planner.Hands, Time: spread(length)}
	}
	shop := hands("shop", planner.Shop, "Shop", g.five(45, 90))
	shop.Away, shop.Open = true, planner.DayHours{From: 9 * 60, Until: 21 * 60}
	for i := range g.p.Dishes {
		d := &g.p.Dishes[i]
		shop.By = append(shop.By, planner.Anchor{Task: planner.StepTask(d.Key, d.Steps[0].Key, 1)})
	}
	table := hands("table", planner.LayTable, "Lay the table", g.five(20, 30))
	table.MaxHands, table.By = 2, []planner.Anchor{{Arrival: true, Within: 300}}
	dress := hands("dress", planner.Dress, "Dress", 30)
	dress.Who.Person, dress.By = g.p.People[0].Key, []planner.Anchor{{Arrival: true, Within: 75}}
	wine := planner.Chore{Key: "wine", Kind: planner.Chill, Do: "Chill the wine", Attention: planner.Unattended,
		Time:  spread(g.five(120, 180)),
		Where: planner.Refrigerator, Leaves: planner.Food{Millilitres: 1000 * g.Roll(2, 6)},
		By: []planner.Anchor{{Course: g.p.Courses[0].Key, Offset: -10, Within: 120}}}
	g.p.Chores = append(g.p.Chores, shop, table, wine, dress)
}

// shapedClaims has about one hands task in twelve claimed by somebody who may do it.
func (g *shaping) shapedClaims() {
	for _, t := range planner.Tasks(g.p) {
		if t.Attention != planner.Hands || t.Who != (planner.Who{}) || !chance(g, 8) {
			continue
		}
		g.p.Work = append(g.p.Work, planner.Work{Task: t.Key, Person: g.p.People[g.Roll(0, len(g.p.People)-1)].Key})
	}
}

// five is a length on the grid.
func (g *shaping) five(low, high int) planner.Minutes {
	return planner.Minutes(5 * g.Roll(low/5, high/5))
}

// shapedDish adds a dish of a kind that the menu has least of.
func (g *shaping) shapedDish(n int) {
	k := g.nextKind()
	g.kinds = append(g.kinds, k)
	d := planner.Dish{Key: dishKey(n), Name: fmt.Sprintf("%s %c", kinds[k].name, 'A'+n), Course: g.courseFor(k),
		Serves: pick(g, 4, 6, 8)}
	kinds[k].steps(g, &d)
	g.p.Dishes = append(g.p.Dishes, d)
}

// nextKind is one of the kinds that the menu has least of: a main dish first.
func (g *shaping) nextKind() int {
	count := make([]int, len(kinds))
	for _, k := range g.kinds {
		count[k]++
	}
	least := count[0]
	for _, c := range count {
		least = min(least, c)
	}
	var open []int
	for k, c := range count {
		if c == least && (len(g.kinds) > 0 || kinds[k].course == "main") {
			open = append(open, k)
		}
	}
	return pick(g, open...)
}

func (g *shaping) courseFor(k int) planner.CourseKey {
	course := kinds[k].course
	if g.p.Course("nibbles") != nil {
		switch {
		case course == "starter" && chance(g, 50):
			return "nibbles"
		case course == "dessert" && chance(g, 25):
			return "cheese"
		}
	}
	return course
}
