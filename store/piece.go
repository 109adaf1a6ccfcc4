package store

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"tureen/planner"
)

// Kind says what a piece of a party is.
type Kind string

// The kinds of piece. Settings and kitchen are a piece a field, the others a piece a thing.
const (
	Setting     Kind = "setting"
	KitchenPart Kind = "kitchen"
	CoursePiece Kind = "course"
	PersonPiece Kind = "person"
	GuestPiece  Kind = "guest"
	DishPiece   Kind = "dish"
	ChorePiece  Kind = "chore"
	DrinkPiece  Kind = "drink"
	WorkPiece   Kind = "work"
	GoodPiece   Kind = "good"
	BoughtPiece Kind = "bought"
	PlanPiece   Kind = "plan"   // all of a plan but the next two
	PlacedPiece Kind = "placed" // a task on the clock
	ServedPiece Kind = "served"
)

// OfPlan reports whether pieces of the kind make up the plan, which follows from the rest.
func (k Kind) OfPlan() bool { return k == PlanPiece || k == PlacedPiece || k == ServedPiece }

// shapes reports whether a plan depends on pieces of the kind.
func (k Kind) shapes() bool { return !k.OfPlan() && k != WorkPiece && k != BoughtPiece }

// Shapes reports whether two states of a party differ in anything that a plan depends on.
func Shapes(before, after *planner.Party) bool {
	a, err1 := split(before, nil)
	b, err2 := split(after, nil)
	compare(nil, a) // puts them in their places
	return err1 != nil || err2 != nil || slices.ContainsFunc(compare(a, b), touch.shapes)
}

type pieceKey struct {
	kind Kind
	key  string
}

type piece struct {
	pieceKey
	ord int64
	doc string // JSON
}

// splitter collects the pieces of a party.
type splitter struct {
	pieces []piece
	seen   map[pieceKey]bool
	err    error
}

func (s *splitter) add(kind Kind, key string, v any) {
	doc, err := json.Marshal(v)
	if err != nil && s.err == nil {
		s.err = fmt.Errorf("store %s %q: %w", kind, key, err)
	}
	at := pieceKey{kind, key}
	for n := 2; s.seen[at]; n++ { // guests and drinks have no keys of their own
		at.key = fmt.Sprintf("%s#%d", key, n)
	}
	s.seen[at] = true
	s.pieces = append(s.pieces, piece{pieceKey: at, doc: string(doc)})
}

// fields adds one piece for each field of v's JSON object, but for those named.
func (s *splitter) fields(kind Kind, v any, without ...string) {
	doc, err := json.Marshal(v)
	var fields map[string]json.RawMessage
	if err == nil {
		err = json.Unmarshal(doc, &fields)
	}
	if err != nil && s.err == nil {
		s.err = fmt.Errorf("store %s: %w", kind, err)
	}
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		if !slices.Contains(without, name) {
			s.add(kind, name, fields[name])
		}
	}
}

// split takes a party and its plan (nil: none) apart. Places are not set yet.
func split(p *planner.Party, plan *planner.Plan) ([]piece, error) {
	s := &splitter{seen: map[pieceKey]bool{}}
	rest := *p
	rest.Courses, rest.People, rest.Guests, rest.Dishes = nil, nil, nil, nil
	rest.Chores, rest.Drinks, rest.Work, rest.Goods, rest.Bought = nil, nil, nil, nil, nil
	s.fields(Setting, rest, "id", "kitchen")
	s.fields(KitchenPart, p.Kitchen)
	for _, v := range p.Courses {
		s.add(CoursePiece, string(v.Key), v)
	}
	for _, v := range p.People {
		s.add(PersonPiece, string(v.Key), v)
	}
	for _, v := range p.Guests {
		s.add(GuestPiece, v.Name, v)
	}
	for _, v := range p.Dishes {
		s.add(DishPiece, string(v.Key), v)
	}
	for _, v := range p.Chores {
		s.add(ChorePiece, string(v.Key), v)
	}
	for _, v := range p.Drinks {
		s.add(DrinkPiece, v.Name, v)
	}
	for _, v := range p.Work {
		s.add(WorkPiece, string(v.Task), v)
	}
	for _, v := range p.Goods {
		s.add(GoodPiece, string(v.Item), v)
	}
	for _, v := range p.Bought {
		s.add(BoughtPiece, string(v.Item), v)
	}
	if plan != nil {
		rest := *plan
		rest.Tasks, rest.Served = nil, nil
		s.add(PlanPiece, "", rest)
		for _, v := range plan.Tasks {
			s.add(PlacedPiece, string(v.Task), v)
		}
		for _, v := range plan.Served {
			s.add(ServedPiece, string(v.Course)+"/"+v.Group, v)
		}
	}
	return s.pieces, s.err
}

// join puts pieces together again. They may come in any order.
func join(id planner.PartyID, pieces []piece) (planner.Party, *planner.Plan, error) {
	pieces = slices.Clone(pieces)
	slices.SortFunc(pieces, func(a, b piece) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), byPlace(a.ord, a.key, b.ord, b.key))
	})
	var p planner.Party
	var plan planner.Plan
	planned := false
	settings, kitchen := map[string]json.RawMessage{}, map[string]json.RawMessage{}
	for _, c := range pieces {
		var err error
		switch c.kind {
		case Setting:
			settings[c.key] = json.RawMessage(c.doc)
		case KitchenPart:
			kitchen[c.key] = json.RawMessage(c.doc)
		case PlanPiece:
			planned = true
			tasks, served := plan.Tasks, plan.Served
			err = json.Unmarshal([]byte(c.doc), &plan)
			plan.Tasks, plan.Served = tasks, served
		case CoursePiece:
			err = grow(&p.Courses, c.doc)
		case PersonPiece:
			err = grow(&p.People, c.doc)
		case GuestPiece:
			err = grow(&p.Guests, c.doc)
		case DishPiece:
			err = grow(&p.Dishes, c.doc)
		case ChorePiece:
			err = grow(&p.Chores, c.doc)
		case DrinkPiece:
			err = grow(&p.Drinks, c.doc)
		case WorkPiece:
			err = grow(&p.Work, c.doc)
		case GoodPiece:
			err = grow(&p.Goods, c.doc)
		case BoughtPiece:
			err = grow(&p.Bought, c.doc)
		case PlacedPiece:
			err = grow(&plan.Tasks, c.doc)
		case ServedPiece:
			err = grow(&plan.Served, c.doc)
		default:
			err = fmt.Errorf("this kind is unknown")
		}
		if err != nil {
			return planner.Party{}, nil, fmt.Errorf("read %s %q: %w", c.kind, c.key, err)
		}
	}
	if err := assemble(settings, &p); err != nil {
		return planner.Party{}, nil, fmt.Errorf("read settings: %w", err)
	}
	if err := assemble(kitchen, &p.Kitchen); err != nil {
		return planner.Party{}, nil, fmt.Errorf("read kitchen: %w", err)
	}
	p.ID = id
	if !planned {
		return p, nil, nil
	}
	slices.SortStableFunc(plan.Tasks, func(a, b planner.Placed) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Task, b.Task))
	})
	return p, &plan, nil
}

func grow[T any](list *[]T, doc string) error {
	var v T
	if err := json.Unmarshal([]byte(doc), &v); err != nil {
		return err
	}
	*list = append(*list, v)
	return nil
}

func assemble(fields map[string]json.RawMessage, into any) error {
	doc, err := json.Marshal(fields)
	if err != nil {
		return err
	}
	return json.Unmarshal(doc, into)
}

// touch is a piece before and after a change; nil where it is not there.
type touch struct {
	pieceKey
	before, after *piece
}

func (t touch) shapes() bool { return t.kind.shapes() }

// compare gives new pieces their places and lists what differs, by kind and key.
func compare(before, after []piece) []touch {
	old := map[pieceKey]*piece{}
	places := map[Kind]map[string]int64{}
	for i := range before {
		c := &before[i]
		old[c.pieceKey] = c
		if places[c.kind] == nil {
			places[c.kind] = map[string]int64{}
		}
		places[c.kind][c.key] = c.ord
	}
	keys := map[Kind][]string{}
	for _, c := range after {
		keys[c.kind] = append(keys[c.kind], c.key)
	}
	for kind, list := range keys {
		if kind.ordered() {
			places[kind] = arrange(list, places[kind])
		} else {
			places[kind] = nil
		}
	}
	var out []touch
	still := map[pieceKey]bool{}
	for i := range after {
		c := &after[i]
		c.ord = places[c.kind][c.key]
		still[c.pieceKey] = true
		if o := old[c.pieceKey]; o == nil || o.doc != c.doc || o.ord != c.ord {
			out = append(out, touch{c.pieceKey, o, c})
		}
	}
	for i := range before {
		if c := &before[i]; !still[c.pieceKey] {
			out = append(out, touch{c.pieceKey, c, nil})
		}
	}
	slices.SortFunc(out, func(a, b touch) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.key, b.key))
	})
	return out
}

// ordered reports whether the order of the kind's pieces is a choice of the hosts' and not given by
// what they say.
func (k Kind) ordered() bool {
	switch k {
	case Setting, KitchenPart, PlanPiece, PlacedPiece:
		return false
	}
	return true
}
