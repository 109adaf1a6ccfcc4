package planner_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
	"tureen/planner/solve"
)

func TestValidateAcceptsTheRichParty(t *testing.T) {
	p, _ := partygen.Rich()
	for _, problem := range p.Validate() {
		t.Errorf("%s: %s", problem.Where, problem.Text)
	}
}

func spoilt(p *planner.Party, d planner.DishKey, s planner.StepKey) *planner.Step {
	return p.Dish(d).Step(s)
}

// nonsense lists ways to spoil the rich party, one thing a row.
var nonsense = []struct {
	name  string
	spoil func(p *planner.Party)
	where string
	text  string
}{
	{"no covers", func(p *planner.Party) { p.Covers = 0 }, "party", "from 1 to 500 covers, not 0"},
	{"10,000 covers", func(p *planner.Party) { p.Covers = 10000; p.Dish("fritters").Covers = 8 }, "party", "not 10000"},
	{"no arrival", func(p *planner.Party) { p.Arrival = time.Time{} }, "party", "when the guests arrive"},
	{"zone unknown", func(p *planner.Party) {
		p.Zone = "Europe/Lisboa"
	}, "party", "Europe/Lisbon; I don't know \"Europe/Lisboa\""},
	{"zone of the machine", func(p *planner.Party) { p.Zone = "Local" }, "party", "time zone"},
	{"prep days", func(p *planner.Party) { p.PrepDays = -1 }, "party", "days of prep"},
	{"room as hot as an oven", func(p *planner.Party) { p.RoomTemperatureC = 80 }, "party", "room temperature"},
	{"long name", func(p *planner.Party) { p.Name = strings.Repeat("é", 10000) }, "party", "80 characters; it has 10000"},
	{"no host", func(p *planner.Party) { p.People[0].Role = planner.CoHost }, "party", "somebody the host"},
	{"one name for two people", func(p *planner.Party) { p.People[2].Key = "ben" }, "party", "people named \"ben\""},
	{"role", func(p *planner.Party) { p.People[1].Role = "chef" }, "person ben", "not \"chef\""},
	{"hours backwards", func(p *planner.Party) {
		p.People[1].Cooks = planner.DayHours{From: 600, Until: 500}
	}, "person ben", "earlier to a later"},
	{"day that is none", func(p *planner.Party) { p.People[2].Days[0].Date = "25.9.2026" }, "person cleo", "2026-09-26"},
	{"oven of no shelf", func(p *planner.Party) {
		p.Kitchen.Ovens[1].Shelves = 0
	}, "oven small oven", "shelves from 1 to 10, not 0"},
	{"oven range", func(p *planner.Party) { p.Kitchen.Ovens[1].MinC = 240 }, "oven small oven", "lowest first"},
	{"negative freezer", func(p *planner.Party) { p.Kitchen.Freezer.Millilitres = -1 }, "kitchen", "0 or more"},
	{"course without service", func(p *planner.Party) {
		p.Courses[0].Servings = nil
	}, "course starter", "when starter is served"},
	{"course without a time", func(p *planner.Party) {
		p.Courses[0].Servings[0].At = time.Time{}
	}, "course starter", "at what time"},
	{"courses out of order", func(p *planner.Party) {
		p.Courses[2].Servings[0].At = p.Courses[0].Servings[0].At
	}, "course dessert", "after main"},
	{"course before the guests", func(p *planner.Party) {
		p.Courses[0].Servings[0].At = p.Arrival.Add(-time.Hour)
	}, "course starter", "after the guests arrive"},
	{"course next week", func(p *planner.Party) {
		p.Courses[2].Servings[0].At = p.Arrival.AddDate(0, 0, 7)
	}, "course dessert", "party's day"},
	{"a group twice", func(p *planner.Party) { p.Courses[1].Servings[0].Group = "" }, "course main", "once"},
	{"window", func(p *planner.Party) { p.Courses[0].Servings[0].Late = -5 }, "course starter", "late from 0"},
	{"two dishes of one name", func(p *planner.Party) {
		d := p.Dishes[5]
		p.Dishes = append(p.Dishes, d)
	}, "party", "dishes named \"sorbet\""},
	{"course of a dish", func(p *planner.Party) { p.Dishes[5].Course = "desert" }, "dish sorbet", "Did you mean dessert?"},
	{"serves none", func(p *planner.Party) { p.Dishes[5].Serves = 0 }, "dish sorbet", "from 1 to 500, not 0"},
	{"ingredient's step", func(p *planner.Party) {
		p.Dishes[5].Ingredients = []planner.Ingredient{{Name: "lemons", Step: "freze"}}
	}, "dish sorbet", "Did you mean freeze?"},
	{"attention", func(p *planner.Party) {
		spoilt(p, "sorbet", "freeze").Attention = "sleep"
	}, "sorbet/freeze", "hands, watch, touch or unattended"},
	{"negative duration", func(p *planner.Party) {
		spoilt(p, "sorbet", "freeze").Time = planner.Span{Low: -5, Likely: 10, High: 20}
	}, "sorbet/freeze", "1 minute or more"},
	{"absurd duration", func(p *planner.Party) {
		spoilt(p, "sorbet", "freeze").Time = planner.Span{Low: 1, Likely: 10, High: math.MaxInt32}
	}, "sorbet/freeze", "at most 7 days"},
	{"likely above high", func(p *planner.Party) {
		spoilt(p, "sorbet", "freeze").Time = planner.Span{Low: 10, Likely: 20, High: 15}
	}, "sorbet/freeze", "out of order"},
	{"touch without rhythm", func(p *planner.Party) { spoilt(p, "bread", "proof").Every = 0 }, "bread/proof", "how often"},
	{"rounds without covers", func(p *planner.Party) {
		spoilt(p, "fritters", "fry").PerRound = 0
	}, "fritters/fry", "one round"},
	{"500 rounds", func(p *planner.Party) {
		p.Dish("fritters").Covers = 500
		spoilt(p, "fritters", "fry").PerRound = 1
	}, "fritters/fry", "500 rounds"},
	{"nowhere", func(p *planner.Party) { spoilt(p, "sorbet", "freeze").Where = "" }, "sorbet/freeze", "where the food is"},
	{"perishable of no kind", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Leaves.Kind = ""
	}, "tart/custard", "what kind of food"},
	{"kind unknown", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Leaves.Kind = "custrd"
	}, "tart/custard", "custard"},
	{"perishable that keeps", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Leaves.Kind = safety.None
	}, "tart/custard", "keeps on the counter"},
	{"part-cooked in the cold", func(p *planner.Party) {
		spoilt(p, "braise", "braise").After[0].Wait.State = planner.Refrigerator
	}, "braise/braise", "part-cooked"},
	{"hot hold without a hold", func(p *planner.Party) {
		spoilt(p, "soup", "reheat").Serve.Hold = nil
	}, "soup/reheat", "what keeps it hot"},
	{"hot hold in a cool oven", func(p *planner.Party) {
		spoilt(p, "soup", "reheat").Serve.Hold = &planner.Use{What: planner.AnOven, C: 60}
	}, "soup/reheat", "63 °C or more"},
	{"oven at 900", func(p *planner.Party) {
		spoilt(p, "bread", "bake").Uses[0].C = 900
	}, "bread/bake", "900 °C is no home oven's"},
	{"oven beyond the kitchen's", func(p *planner.Party) {
		spoilt(p, "bread", "bake").Uses[0].C = 270
	}, "bread/bake", "50 to 250 °C, not 270"},
	{"oven unknown", func(p *planner.Party) {
		spoilt(p, "bread", "bake").Uses[0].Name = "smal oven"
	}, "bread/bake", "Did you mean small oven?"},
	{"vessel unknown", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Uses[1].Name = "sauce pan"
	}, "tart/custard", "Did you mean saucepan?"},
	{"vessel not named", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Uses[1].Name = ""
	}, "tart/custard", "which vessel"},
	{"four of three burners", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Uses[0].Amount = 4
	}, "tart/custard", "3 × burner; 4 are too many"},
	{"no such equipment", func(p *planner.Party) {
		spoilt(p, "tart", "custard").Uses[0].What = "campfire"
	}, "tart/custard", "campfire"},
	{"occupied until nowhere", func(p *planner.Party) {
		spoilt(p, "braise", "brown").Uses[1].Through = "brase"
	}, "braise/brown", "Did you mean braise?"},
	{"occupied until an earlier step", func(p *planner.Party) {
		spoilt(p, "tart", "fill").Uses = []planner.Use{{What: planner.ACounter, Through: "dough"}}
	}, "tart/fill", "comes after fill"},
	{"heat changes after the end", func(p *planner.Party) {
		spoilt(p, "bread", "bake").Uses[0].Then[0].After = 40
	}, "bread/bake", "within the step's 40"},
	{"shut and touched", func(p *planner.Party) {
		spoilt(p, "bread", "proof").Uses = []planner.Use{{What: planner.AnOven, C: 0, Shut: true}}
	}, "bread/proof", "a touch opens it"},
	{"after itself", func(p *planner.Party) {
		spoilt(p, "tart", "fill").After[0].Step = "fill"
	}, "tart/fill", "cannot come after itself"},
	{"after a dish unknown", func(p *planner.Party) {
		spoilt(p, "tart", "fill").After[0].Dish = "tarte"
	}, "tart/fill", "Did you mean tart?"},
	{"after a step unknown", func(p *planner.Party) {
		spoilt(p, "tart", "fill").After[0].Step = "bakes"
	}, "tart/fill", "Did you mean bake?"},
	{"after the same twice", func(p *planner.Party) {
		s := spoilt(p, "tart", "fill")
		s.After = append(s.After, s.After[0])
	}, "tart/fill", "once, not twice"},
	{"wait backwards", func(p *planner.Party) {
		spoilt(p, "tart", "bake").After[0].Wait.Longest = 30
	}, "tart/bake", "1 hour is longer than 30 minutes"},
	{"best backwards", func(p *planner.Party) {
		spoilt(p, "tart", "chill").Serve.BestFrom = 800
	}, "tart/chill", "best time begin"},
	{"negative wait", func(p *planner.Party) {
		spoilt(p, "tart", "fill").After[0].Wait.Least = -1
	}, "tart/fill", "0 minutes to 30 days"},
	{"straight and not", func(p *planner.Party) {
		spoilt(p, "tart", "chill").After[0].Wait.Least = 10
	}, "tart/chill", "goes straight on"},
	{"waits in the heat", func(p *planner.Party) {
		spoilt(p, "tart", "fill").After[0].Wait.State = planner.Heat
	}, "tart/fill", "how the food waits"},
	{"who unknown", func(p *planner.Party) {
		spoilt(p, "tart", "fill").Who.Person = "bem"
	}, "tart/fill", "Did you mean ben?"},
	{"looker given work", func(p *planner.Party) { spoilt(p, "tart", "fill").Who.Person = "dan" }, "tart/fill", "lookers"},
	{"skill nobody has", func(p *planner.Party) {
		spoilt(p, "tart", "dough").Who.Skill = "pasty"
	}, "tart/dough", "Did you mean pastry?"},
	{"more hands than people", func(p *planner.Party) {
		spoilt(p, "tart", "fill").Hands = 4
	}, "tart/fill", "it needs 4, and 3 cook"},
	{"most hands below the least", func(p *planner.Party) {
		s := spoilt(p, "soup", "chop")
		s.Hands, s.MaxHands = 3, 2
	}, "soup/chop", "at least those it needs, 3"},
	{"a circle in a dish", func(p *planner.Party) {
		spoilt(p, "tart", "dough").After = []planner.After{{Step: "chill", Wait: planner.Wait{State: planner.Counter}}}
	}, "tart/dough", "tart/dough, then tart/bake, then tart/fill, then tart/chill, then tart/dough"},
	{"a circle over dishes", func(p *planner.Party) {
		spoilt(p, "soup", "chop").After = []planner.After{{Dish: "bread", Step: "bake",
			Wait: planner.Wait{State: planner.Counter}}}
		spoilt(p, "bread", "proof").After = []planner.After{{Dish: "soup", Step: "blend",
			Wait: planner.Wait{State: planner.Counter}}}
	}, "soup/chop", "circle"},
	{"a circle through a chore", func(p *planner.Party) {
		p.Chore("shopping").From = &planner.Anchor{Task: "tart/chill"}
		p.Chore("shopping").By = []planner.Anchor{{Task: "tart/dough"}}
	}, "tart/dough", "shopping"},
	{"chore's kind", func(p *planner.Party) { p.Chore("wine").Kind = "fun" }, "wine", "not \"fun\""},
	{"chore occupies until", func(p *planner.Party) {
		p.Chore("wine").Uses = []planner.Use{{What: planner.ACounter, Through: "chop"}}
	}, "wine", "own time only"},
	{"anchor on nothing", func(p *planner.Party) { p.Chore("wine").By[0].Course = "" }, "wine", "on one thing"},
	{"anchor on two things", func(p *planner.Party) { p.Chore("wine").By[0].Arrival = true }, "wine", "on one thing"},
	{"anchor on a course unknown", func(p *planner.Party) {
		p.Chore("wine").By[0].Course = "starters"
	}, "wine", "Did you mean starter?"},
	{"anchor on a task unknown", func(p *planner.Party) {
		p.Chore("shopping").By[0].Task = "soup/chp"
	}, "shopping", "Did you mean soup/chop?"},
	{"anchor on itself", func(p *planner.Party) {
		p.Chore("shopping").By[0].Task = "shopping"
	}, "shopping", "wait for itself"},
	{"watched from away", func(p *planner.Party) {
		c := p.Chore("shopping")
		c.Attention = planner.Watch
	}, "shopping", "from out of the house"},
	{"work on no task", func(p *planner.Party) {
		p.Work[0].Task = "fritters/bater"
	}, "fritters/bater", "Did you mean fritters/batter?"},
	{"work by nobody", func(p *planner.Party) {
		p.Work[0].Person = "zoe"
	}, "fritters/batter", "\"zoe\" is not one of them"},
	{"done without an end", func(p *planner.Party) {
		p.Work[0].Progress = planner.Done
	}, "fritters/batter", "when fritters/batter was done"},
	{"started without a start", func(p *planner.Party) {
		p.Work[0].Progress = planner.Started
	}, "fritters/batter", "when fritters/batter was started"},
	{"no bottles", func(p *planner.Party) {
		p.Drinks = []planner.Drink{{Name: "cider"}}
	}, "drink cider", "how many bottles"},
}

// Each row of nonsense spoils one thing; exactly one problem must come of it, at that place, in one sentence or two.
func TestValidateNamesWhatMakesNoSense(t *testing.T) {
	for _, row := range nonsense {
		t.Run(row.name, func(t *testing.T) {
			p, _ := partygen.Rich()
			row.spoil(p)
			got := p.Validate()
			if len(got) != 1 {
				t.Fatalf("got %d problems, want 1: %+v", len(got), got)
			}
			if got[0].Where != row.where || !strings.Contains(got[0].Text, row.text) {
				t.Errorf("got %s: %s\nwant %s: …%s…", got[0].Where, got[0].Text, row.where, row.text)
			}
			if text := got[0].Text; strings.Contains(text, "%!") || strings.Contains(text, "\n") {
				t.Errorf("no clear sentence: %q", text)
			}
		})
	}
}

func TestValidateSurvivesAnEmptyParty(t *testing.T) {
	p := &planner.Party{Dishes: []planner.Dish{{Steps: []planner.Step{{Uses: []planner.Use{{}}, After: []planner.After{{}},
		Serve: &planner.Wait{}}}}},
		Chores:  []planner.Chore{{From: &planner.Anchor{}, By: []planner.Anchor{{}}}},
		Courses: []planner.Course{{Servings: []planner.Serving{{}}}}}
	if len(p.Validate()) < 10 {
		t.Errorf("an empty party has more than %d problems", len(p.Validate()))
	}
}

// Nonsense that comes past the door is refused by the others or planned around; it never stops the program.
func TestNonsenseNeverPanics(t *testing.T) {
	for _, row := range nonsense {
		t.Run(row.name, func(t *testing.T) {
			p, plan := partygen.Rich()
			row.spoil(p)
			check.Plan(p, plan)
			check.Of(p).Figures(plan, plan)
			made, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: plan.Made, Work: 20_000, FirstOnly: true})
			if made == nil && clash == nil && err == nil {
				t.Error("got neither a plan nor a clash nor an error")
			}
		})
	}
}
