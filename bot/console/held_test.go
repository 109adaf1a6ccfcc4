package console

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"regexp"
	"slices"
	"strings"
	"testing"

	diff "github.com/google/go-cmp/cmp"

	"tureen/planner"
	"tureen/store"
	"tureen/store/held"
)

// The party that was left in the middle of its evening, and the one that has all the words.
const (
	longTable  planner.PartyID = 1
	smallWords planner.PartyID = 2
	thread                     = "the-long-table"
)

// Words of what was saved then that are spelled otherwise now: names of JSON fields, and words by the field that they
// stand in, as "state=hot hold". What comes out is compared as the planner's types.
var (
	renamedFields = map[string]string{
		"roomC": "roomTemperatureC", "sources": "hotPlaces", "ware": "plate", "inHouse": "have", "growth": "grows",
		"chill": "cool", "vessel": "madeOf", "body": "consistency", "onCall": "whenCalled", "min": "least", "max": "longest",
		"floor": "worthUntil", "uses/until": "through", "hold/until": "through", "thing": "item", "house": "have",
		"sold": "packs",
	}
	renamedWords = map[string]string{
		"format=tureen-party/1": "tureen-party/2", "attention=rest": "unattended", "growth=batch": "proportion",
		"what=source": "hot place", "kind=room": "clear refrigerator", "role=looker": "onlooker", "name=room": "spare",
	}
	choreKey = regexp.MustCompile(`^chore/`)
)

// respelled is a JSON value with today's spellings; field is the one that it stands in. A field may be renamed only
// within another one, as "uses/until".
func respelled(v any, field string) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			out[otherwise(renamedFields, field+"/"+k, otherwise(renamedFields, k, k))] = respelled(x, k)
		}
		return out
	case []any:
		for i := range v {
			v[i] = respelled(v[i], field)
		}
		return v
	case string:
		if field == "task" || field == "key" {
			v = choreKey.ReplaceAllString(v, "")
		}
		return otherwise(renamedWords, field+"="+v, v)
	}
	return v
}

func otherwise(list map[string]string, key, same string) string {
	if other, there := list[key]; there {
		return other
	}
	return same
}

// saved is a party as "tureen export" printed it then, read with today's types: a field that they do not have is an
// error, so that nothing is lost by being renamed.
func saved(t *testing.T, name string) Exported {
	t.Helper()
	var v any
	numbers := json.NewDecoder(strings.NewReader(held.Text(t, name+".json")))
	numbers.UseNumber()
	if err := numbers.Decode(&v); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(respelled(v, ""))
	if err != nil {
		t.Fatal(err)
	}
	e := exported(t, text)
	if e.Plan != nil { // by start, then key, which was another for some
		slices.SortStableFunc(e.Plan.Tasks, func(a, b planner.Placed) int {
			return cmp.Or(a.Start.Compare(b.Start), strings.Compare(string(a.Task), string(b.Task)))
		})
	}
	return e
}

func exported(t *testing.T, text []byte) Exported {
	t.Helper()
	var e Exported
	strict := json.NewDecoder(bytes.NewReader(text))
	strict.DisallowUnknownFields()
	if err := strict.Decode(&e); err != nil {
		t.Fatal(err)
	}
	return e
}

// exportNow is a party as today's "tureen export" would print it, read again.
func exportNow(t *testing.T, s *store.Store, id planner.PartyID) Exported {
	t.Helper()
	snap, err := s.Load(context.Background(), community, id)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(ExportOf(snap))
	if err != nil {
		t.Fatal(err)
	}
	return exported(t, text)
}

func openHeld(t *testing.T, more ...string) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), held.File(t, nil, more...))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// goOn is a sitting on what was left, by Noor, in the party's thread.
func goOn(t *testing.T, s *store.Store) (*Chat, *bytes.Buffer) {
	t.Helper()
	var out bytes.Buffer
	c := New(s, "Noor", held.Now, t.TempDir(), &out, slog.New(slog.DiscardHandler))
	c.channel = thread
	return c, &out
}

// say types lines, none of which may be refused, and answers what was printed.
func say(t *testing.T, c *Chat, out *bytes.Buffer, lines ...string) string {
	t.Helper()
	out.Reset()
	refused, err := c.Lines(context.Background(), strings.NewReader(strings.Join(lines, "\n")))
	if err != nil || refused > 0 {
		t.Fatalf("refused %d, %v:\n%s", refused, err, out)
	}
	return out.String()
}

// TestHeldOpens: a file of then opens, with the same parties, plan and figures; so does one that has taken fewer of
// the steps, as older files have: the second step changes no table, and the third adds one.
func TestHeldOpens(t *testing.T) {
	for schema := 1; schema <= held.Schema; schema++ {
		older := fmt.Sprintf("PRAGMA user_version = %d;", schema)
		if schema < 3 {
			older += "DROP TABLE reading;"
		}
		s := openHeld(t, older)
		for id, name := range map[planner.PartyID]string{longTable: "long-table", smallWords: "small-words"} {
			then, now := saved(t, name), exportNow(t, s, id)
			then.Limits, now.Limits = ExportedLimits{}, ExportedLimits{} // what is published today, and not kept
			if d := diff.Diff(then, now); d != "" {
				t.Errorf("schema %d, %s (-then +now):\n%s", schema, name, d)
			}
		}
		now := exportNow(t, s, longTable)
		if now.State != PlanHolds || len(now.Broken) > 0 || len(now.Plan.Tasks) != 41 {
			t.Errorf("schema %d: the plan %s, has %d tasks and breaks %v", schema, now.State, len(now.Plan.Tasks), now.Broken)
		}
	}
}

// TestHeldMeansTheSame: what was typed is understood as it was, whatever it is called in the file.
func TestHeldMeansTheSame(t *testing.T) {
	s := openHeld(t)
	p := exportNow(t, s, longTable).Party
	step := func(dish planner.DishKey, key planner.StepKey) *planner.Step {
		d := p.Dish(dish)
		if d == nil || d.Step(key) == nil {
			t.Fatalf("there is no step %s/%s", dish, key)
		}
		return d.Step(key)
	}
	roast, fry, temper := step("roast-pork", "roast"), step("courgette-fritters", "fry"), step("lemon-ices", "temper")
	carve, cool := step("roast-pork", "carve"), step("bean-pot", "cool")
	mia, luc := p.Person("mia"), p.Person("luc")
	for what, holds := range map[string]bool{
		"the oven turns down": len(roast.Uses) > 0 && roast.Uses[0].Shut && roast.Uses[0].Tolerance == 15 &&
			len(roast.Uses[0].Then) == 1,
		"it cooks": roast.Where == planner.Heat && roast.Cooks && roast.Attention == planner.Watch,
		"rounds": fry.Grows == planner.InRounds && fry.PerRound == 4 && fry.RoundGap == 4 &&
			fry.Who.Skill == "frying",
		"kept warm": fry.Serve != nil && fry.Serve.State == planner.Warm && fry.Serve.Longest == 80,
		"out of the freezer": len(temper.After) == 2 && temper.After[0].Wait.State == planner.Freezer &&
			temper.After[1].FromStart,
		"on the host's word":        carve.WhenCalled && carve.MaxHands == 2,
		"held hot":                  carve.Serve != nil && carve.Serve.State == planner.HotHold && carve.Serve.Hold != nil,
		"cooled in ice water":       cool.Cool != nil && cool.Cool.DepthCM == 12,
		"Mia is told directly":      mia != nil && mia.Role == planner.CoHost && mia.Direct,
		"Luc is told in the thread": luc != nil && !luc.Direct && len(luc.Days) == 1,
		"the thread":                p.Channel == thread,
		"the kitchen":               len(p.Kitchen.Ovens) == 2 && p.Kitchen.Burners == 5 && p.Kitchen.Grills == 1,
	} {
		if !holds {
			t.Errorf("%s: no longer so", what)
		}
	}
}
