package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
)

// straightOn is how a person says that food does not wait.
const straightOn = "straight on"

var waitStates = []planner.State{planner.Straight, planner.Counter, planner.Refrigerator, planner.Freezer, planner.Warm,
	planner.HotHold}

var waitChoices = func() (out []string) {
	for _, s := range waitStates {
		if s == planner.Straight {
			s = straightOn
		}
		out = append(out, string(s))
	}
	return out
}()

var (
	waitOption = talk.Option{Name: "wait", Help: "how the food waits in between", Kind: talk.Choice,
		Choices: waitChoices, Example: "refrigerator"}
	leastOption = talk.Option{Name: "least", Help: "the shortest wait", Kind: talk.Length, Max: int(planner.MaxWait),
		Example: "1h"}
	longestOption = talk.Option{Name: "longest", Help: "the longest wait, for safety's sake", Kind: talk.Length,
		Max: int(planner.MaxWait), Example: "2 days"}
)

var waitOptions = []talk.Option{
	waitOption, leastOption, longestOption,
	{Name: "best-from", Help: "at its best after so long", Kind: talk.Length, Max: int(planner.MaxWait), Example: "1 day"},
	{Name: "best-until", Help: "at its best up to so long",
		Kind: talk.Length, Max: int(planner.MaxWait), Example: "2 days"},
	{Name: "worth-until", Help: "after so long it is not worth serving",
		Kind: talk.Length, Max: int(planner.MaxWait), Example: "4h"},
	{Name: "hold", Help: "what keeps it hot or where it stands, or none",
		Kind: talk.Text, Offers: talk.Equipment, Example: "warming tray"},
	{Name: "temperature", Help: "the oven's temperature, where it is held in one", Kind: talk.Temperature, Example: "70"},
}

var stepWaitCommands = []command{
	{talk.Command{Name: "step after", Help: "Say what a step comes after, and how the food waits in between",
		Access:  talk.CoHosts,
		Example: "/step after step:pear-tart/roll of:pear-tart/pastry wait:refrigerator least:1h longest:2 days",
		Options: append(append([]talk.Option{
			stepOption,
			{Name: "of", Help: "the earlier step, of this dish or another",
				Kind: talk.Text, Offers: talk.AllSteps, Required: true, Example: "pear-tart/pastry"},
		}, waitOptions...),
			talk.Option{Name: "from-start", Help: "yes: the time runs from the earlier step's start", Kind: talk.YesNo,
				Example: "yes"},
			talk.Option{Name: "remove", Help: "yes: it no longer comes after it", Kind: talk.YesNo, Example: "yes"})},
		stepAfter},
	{talk.Command{Name: "step serve", Help: "Say how food waits from a step to its service",
		Access: talk.CoHosts, Menu: true, Example: "/step serve step:pear-tart/bake wait:counter longest:3h",
		Options: append(append([]talk.Option{stepOption}, waitOptions...),
			talk.Option{Name: "remove", Help: "yes: forget what was said about the wait", Kind: talk.YesNo, Example: "yes"})},
		stepServe},
}

// setWait takes a wait from the options, those that are given.
func (t *Turn) setWait(w *planner.Wait) error {
	if v, ok := t.values["wait"]; ok {
		w.State = waitStates[v.N]
	}
	for _, f := range []struct {
		name string
		to   *planner.Minutes
	}{{"least", &w.Least}, {"longest", &w.Longest}, {"best-from", &w.BestFrom}, {"best-until", &w.BestUntil},
		{"worth-until", &w.WorthUntil}} {
		if t.has(f.name) {
			*f.to = t.minutes(f.name)
		}
	}
	if t.has("hold") {
		w.Hold = nil
		if name := t.emptyable("hold"); name != "" {
			u, err := t.equipment(name)
			if err != nil {
				return err
			}
			w.Hold = &u
		}
	}
	if t.has("temperature") {
		if w.Hold == nil || w.Hold.What != planner.AnOven {
			return talk.Refuse("hold:oven temperature:70", "A temperature is for a hold in an oven; name the oven in hold:.")
		}
		w.Hold.C, w.Hold.Tolerance = t.whole("temperature", 0), 0
	}
	return nil
}

// addAfters reads the steps that a new step comes after; all wait alike.
func (t *Turn) addAfters(d *planner.Dish, s *planner.Step) error {
	names := splitNames(t.text("after"))
	if len(names) == 0 {
		for _, o := range []string{"wait", "least", "longest"} {
			if t.has(o) {
				return talk.Refuse(stepAddExample, "%s: is about the wait after an earlier step; say which with after:, or use "+
					"/step serve for the wait before service.", o)
			}
		}
	}
	for _, name := range names {
		a, err := t.earlier(d, s.Key, name)
		if err != nil {
			return err
		}
		a.Wait.State = t.staysIn(d, &a)
		if err := t.setWait(&a.Wait); err != nil {
			return err
		}
		s.After = append(s.After, a)
	}
	return nil
}

// staysIn is where the food of an earlier step waits as long as nobody says.
func (t *Turn) staysIn(d *planner.Dish, a *planner.After) planner.State {
	if a.Dish != "" {
		d = t.Party.Dish(a.Dish)
	}
	return d.Step(a.Step).Stays()
}

// earlier finds a step that another one of dish d may come after: "pastry" of the same dish, or
// "roast/rest" of any.
func (t *Turn) earlier(d *planner.Dish, self planner.StepKey, name string) (planner.After, error) {
	if planner.Key(name) == string(self) || name == string(d.Key)+"/"+string(self) {
		return planner.After{}, talk.Refuse("", "%s cannot come after itself; name another step.", self)
	}
	if !strings.Contains(name, "/") {
		k, err := findStepOf(d, name)
		return planner.After{Step: k}, err
	}
	dish, step, err := t.findStep(name)
	if err != nil {
		return planner.After{}, err
	}
	a := planner.After{Step: step}
	if dish != d.Key {
		a.Dish = dish
	}
	return a, nil
}

func stepAfter(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	a, err := t.earlier(d, s.Key, t.text("of"))
	if err != nil {
		return talk.Reply{}, err
	}
	at := slices.IndexFunc(s.After, func(o planner.After) bool { return o.Step == a.Step && o.Dish == a.Dish })
	name := strings.TrimPrefix(string(a.Dish)+"/"+string(a.Step), "/")
	if t.yes("remove", false) {
		if at < 0 {
			return talk.Reply{}, talk.Refuse("/dish show dish:"+string(d.Key), "%s does not come after %s anyway.", s.Key, name)
		}
		s.After = slices.Delete(s.After, at, at+1)
		t.did("%s/%s no longer comes after %s", d.Key, s.Key, name)
		return talk.Reply{Text: fmt.Sprintf("%s no longer comes after %s.", s.Do, name), Next: "Next: /dish show dish:" +
			string(d.Key)}, nil
	}
	if at < 0 {
		a.Wait.State = t.staysIn(d, &a)
		s.After = append(s.After, a)
		at = len(s.After) - 1
	}
	one := &s.After[at]
	one.FromStart = t.yes("from-start", one.FromStart)
	if err := t.setWait(&one.Wait); err != nil {
		return talk.Reply{}, err
	}
	t.did("set that %s/%s comes after %s", d.Key, s.Key, name)
	return talk.Reply{Text: fmt.Sprintf("%s: %s.", s.Do, afterText(d, one)), Next: "Next: /dish show dish:" +
		string(d.Key)}, nil
}

func stepServe(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	next := "Next: /dish show dish:" + string(d.Key)
	if t.yes("remove", false) {
		s.Serve = nil
		t.did("forgot the wait from %s/%s to service", d.Key, s.Key)
		return talk.Reply{Text: fmt.Sprintf("The wait from %s to service is forgotten.", s.Key), Next: next}, nil
	}
	if t.told() == 1 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say how it waits, or how long at most.")
	}
	if s.Serve == nil {
		s.Serve = &planner.Wait{State: s.Stays()}
	}
	if err := t.setWait(s.Serve); err != nil {
		return talk.Reply{}, err
	}
	t.did("set the wait from %s/%s to service", d.Key, s.Key)
	return talk.Reply{Text: fmt.Sprintf("%s, then to service: %s.", s.Do, waitText(s.Serve)), Next: next}, nil
}
