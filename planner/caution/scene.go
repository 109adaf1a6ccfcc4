package caution

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// kitchen is a dish with what is asked of it.
type kitchen struct {
	party    *planner.Party
	trace    *trace.Trace
	dish     *planner.Dish
	complete bool
	unmarked bool // a mark on an egg counts for nothing
	all      []*scene
	words    []found  // of the ingredients and the dish's name
	held     []string // the rows that hold, as far as they have been gone through
}

// scene is a step, as the terms see it.
type scene struct {
	k     *kitchen
	at    int
	s     *planner.Step
	l     *trace.Leaves
	words []found
	later []link // the steps of the dish after it
}

// link is a step after another one, and the wait in between.
type link struct {
	to   *scene
	wait planner.Wait
}

func same(a, b *planner.Dish) bool { return reflect.DeepEqual(a, b) }

func (k *kitchen) scenes() []*scene {
	d := k.dish
	for i := range d.Steps {
		s := &d.Steps[i]
		k.all = append(k.all, &scene{k: k, at: i, s: s, l: k.trace.Leaves(d.Key, s.Key), words: read(s.Do + ", " + s.Until)})
	}
	for _, x := range k.all {
		for _, a := range x.s.After {
			if from := k.scene(a.Step); from != nil && (a.Dish == "" || a.Dish == d.Key) && !a.FromStart {
				from.later = append(from.later, link{x, a.Wait})
			}
		}
	}
	text := d.Name
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		text += ", " + in.Amount + " " + in.Name + ", " + in.Note
		if in.Frozen {
			text += ", frozen"
		}
	}
	k.words = read(text)
	return k.all
}

func (k *kitchen) scene(s planner.StepKey) *scene {
	for _, x := range k.all {
		if x.s.Key == s {
			return x
		}
	}
	return nil
}

// in says whether a part is of a set.
func in(p *trace.Part, name string) bool {
	s := data().sets[name]
	if s.without != "" && in(p, s.without) {
		return false
	}
	return slices.Contains(s.kinds, p.Kind) || p.Class != nil && slices.Contains(s.classes, p.Class.Name) ||
		len(s.foods) > 0 && slices.ContainsFunc(food.All(p.Name), func(f food.Food) bool {
			return slices.Contains(s.foods, f.Name)
		})
}

// raw says whether a part is animal food that nothing has cooked.
func raw(p *trace.Part) bool {
	return !p.Cooked && !p.Half && (p.Kind.Raw() || p.Kind == safety.RawEgg || p.Kind == safety.Eggs)
}

// out says whether the step leaves such food of a set. What somebody has said that it leaves stands for what is not
// known; it is no second piece of meat beside the one that went in.
func (x *scene) out(of string, is func(*trace.Part) bool) bool {
	known := slices.ContainsFunc(x.l.Parts, animal)
	return slices.ContainsFunc(x.l.Parts, func(p trace.Part) bool {
		return !(p.Said && known) && is(&p) && in(&p, of)
	})
}

// animal says whether a part is meat, fish or egg by its own words.
func animal(p trace.Part) bool {
	f, ok := food.Find(p.Name)
	return !p.Said && ok && slices.Contains([]string{"meat", "fish", "egg"}, f.Class.Group)
}

// had says whether food of a set goes into the step, or is left by it.
func (x *scene) had(of string) bool {
	is := func(p trace.Part) bool { return in(&p, of) }
	return slices.ContainsFunc(x.l.In, is) || slices.ContainsFunc(x.l.Parts, is)
}

// named says whether the step is about food of a set: by the foods that its words name, or else by what goes in.
func (x *scene) named(of string) bool {
	foods := food.All(x.s.Do)
	if len(foods) == 0 {
		return x.had(of)
	}
	return slices.ContainsFunc(foods, func(f food.Food) bool {
		p := trace.Part{Name: f.Name, Class: f.Class, Kind: f.Kind()}
		return in(&p, of) || f.Generic() && x.had(of)
	})
}

// served says whether the food goes to the table from here.
func (x *scene) served() bool {
	return x.s.Serve != nil || x.k.complete && len(x.later) == 0 && x.at == len(x.k.all)-1
}

func cold(s planner.State) bool { return s == planner.Refrigerator || s == planner.Freezer }

// inCold says whether the food is in the cold in the step itself.
func (x *scene) inCold() bool { return cold(x.s.Where) || has(x.words, "chills") && !x.l.Hot }

// waits are the waits after the step.
func (x *scene) waits() []planner.Wait {
	var out []planner.Wait
	for _, l := range x.later {
		out = append(out, l.wait)
	}
	if x.s.Serve != nil {
		out = append(out, *x.s.Serve)
	}
	return out
}

// long says whether a wait may take so many minutes: in the cold it may where nobody has said less.
func long(w planner.Wait, minutes planner.Minutes) bool {
	switch w.State {
	case planner.Straight, planner.HotHold:
		return false
	}
	return w.Least >= minutes || w.Longest >= minutes || cold(w.State) && w.Longest == 0
}

// degrees are the temperatures in °C, of those that food has in its middle, that a text names.
func degrees(text string) []float64 {
	return slices.DeleteFunc(slices.Clone(trace.Degrees(text)), func(c float64) bool { return c < 30 || c > 100 })
}

// under says whether the step states a temperature in the middle that is below the chart for raw food of a set.
func (x *scene) under(of string) bool {
	var all []float64
	if has(x.words, "middle") {
		all = degrees(x.s.Do)
	}
	all = append(all, degrees(x.s.Until)...)
	if len(all) == 0 || x.l.ToFinish {
		return false
	}
	most := slices.Max(all)
	return slices.ContainsFunc(x.l.In, func(p trace.Part) bool {
		l := safety.CookTo(p.Kind)
		return raw(&p) && in(&p, of) && l.Heated && l.TempC >= most+1
	})
}

// noted says whether one sentence of a note has all of some roles.
func noted(note string, roles []string) bool {
	for sentence := range strings.SplitSeq(note, ". ") {
		said := read(sentence)
		if !slices.ContainsFunc(roles, func(role string) bool { return !has(said, role) }) {
			return true
		}
	}
	return false
}

// tests are the terms, by name; the ones that look along the steps stand in along.go.
var tests map[string]func(*scene, string) bool

func init() {
	tests = map[string]func(*scene, string) bool{
		"raw":     func(x *scene, of string) bool { return x.out(of, raw) },
		"half":    func(x *scene, of string) bool { return x.out(of, func(p *trace.Part) bool { return p.Half }) },
		"out":     func(x *scene, of string) bool { return x.out(of, func(*trace.Part) bool { return true }) },
		"unknown": func(x *scene, _ string) bool { return len(x.l.Unknown) > 0 },
		"raw-plant": func(x *scene, of string) bool {
			return x.out(of, func(p *trace.Part) bool { return !p.Cooked })
		},
		"had":   (*scene).had,
		"of":    (*scene).named,
		"under": (*scene).under,
		"says":  func(x *scene, of string) bool { return has(x.words, of) },
		"told":  func(x *scene, of string) bool { return has(x.words, of) || has(read(x.s.Source), of) },
		"before": func(x *scene, of string) bool {
			return slices.ContainsFunc(x.before(), func(y *scene) bool { return has(y.words, of) })
		},
		// Poached salmon says nothing of the egg beside it.
		"soft-before": func(x *scene, of string) bool {
			return slices.ContainsFunc(x.before(), func(y *scene) bool { return has(y.words, "soft-egg") && y.named(of) })
		},
		"dish":    func(x *scene, of string) bool { return has(x.k.words, of) },
		"also":    func(x *scene, of string) bool { return slices.Contains(x.k.held, of) },
		"name":    func(x *scene, of string) bool { return has(read(x.k.dish.Name), of) },
		"country": func(x *scene, of string) bool { return string(x.k.country()) == of },
		"brought": func(x *scene, _ string) bool { return x.k.mayWarm() },
		"lion":    func(x *scene, _ string) bool { return x.k.lion() },
		"noted":   func(x *scene, of string) bool { return noted(x.k.dish.Note, strings.Split(of, "+")) },
		"remarked": func(x *scene, of string) bool {
			_, behind, _ := strings.Cut(x.s.Source, "\n") // what a recipe says of the step, and not of the dish
			return has(read(behind), of)
		},
		"itself":      func(x *scene, _ string) bool { return x.itself() },
		"brief":       (*scene).brief,
		"thaws-short": (*scene).thawsShort,
		"hot-before": func(x *scene, _ string) bool {
			return slices.ContainsFunc(x.before()[1:], func(y *scene) bool { return y.l.Hot })
		},
		"served":   func(x *scene, _ string) bool { return x.served() },
		"hot":      func(x *scene, _ string) bool { return x.l.Hot },
		"finished": func(x *scene, _ string) bool { return x.l.ToFinish },
		"signed": func(x *scene, _ string) bool {
			return has(x.words, "rare") || len(degrees(x.s.Until)) > 0
		},
		"within": func(x *scene, of string) bool {
			n, err := strconv.Atoi(of)
			return err == nil && x.s.Time.Likely <= planner.Minutes(n)
		},
		"to": func(x *scene, of string) bool {
			n, err := strconv.Atoi(of)
			return err == nil && slices.ContainsFunc(degrees(x.s.Do+" "+x.s.Until), func(c float64) bool {
				return c >= float64(n)
			})
		},
		"chilled": func(x *scene, _ string) bool {
			return x.inCold() || slices.ContainsFunc(x.waits(), func(w planner.Wait) bool { return cold(w.State) })
		},
		"waits": func(x *scene, of string) bool {
			n, err := strconv.Atoi(of)
			return err == nil && (x.s.Time.Likely >= planner.Minutes(n) ||
				slices.ContainsFunc(x.waits(), func(w planner.Wait) bool { return long(w, planner.Minutes(n)) }))
		},
		"held": (*scene).held, "frozen": (*scene).frozen, "boiled": (*scene).boiled, "ever-hot": (*scene).everHot,
		"hot-later": (*scene).hotLater, "ends-so": (*scene).endsSo, "never-hot": (*scene).neverHot,
		"lukewarm": (*scene).lukewarm,
		"tinned":   (*scene).tinned, "low-oven": (*scene).lowOven, "reheated-twice": (*scene).reheatedTwice,
		"used-marinade": (*scene).usedMarinade, "blends-hot": (*scene).blendsHot,
		"cooler": (*scene).cooler, "cultured": (*scene).cultured, "out-long": (*scene).outLong,
	}
}
