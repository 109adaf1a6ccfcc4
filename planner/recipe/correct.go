package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/measure"
	"tureen/planner/ware"
)

// Correction is what a person says of a reading: of one step, or of the recipe as a whole. What is zero stays as it was
// read. It is kept as JSON beside the recipe, and said again when the recipe is read again.
type Correction struct {
	Serves int    `json:"serves,omitempty"`
	Title  string `json:"title,omitempty"`
	Keeps  string `json:"keeps,omitempty"` // "yes" or "no": whether what is not known keeps on the counter

	Next bool   `json:"next,omitempty"` // it came in one message with the correction before it
	Food int    `json:"food,omitempty"` // an ingredient, from 1, that Drop or Line is about
	Line string `json:"line,omitempty"` // its line anew; without Food: one that is added, for Step where that is said
	Part string `json:"part,omitempty"` // the part of the dish that an added one is for

	Step      int               `json:"step,omitempty"`   // from 1; 0: the whole
	Drop      bool              `json:"drop,omitempty"`   // it is no step
	Split     string            `json:"split,omitempty"`  // it is several, in these words
	Add       string            `json:"add,omitempty"`    // steps that come after it, in these words
	Before    bool              `json:"before,omitempty"` // or, of those, before it
	Do        string            `json:"do,omitempty"`
	Low       int               `json:"low,omitempty"` // minutes
	High      int               `json:"high,omitempty"`
	Attention planner.Attention `json:"attention,omitempty"`
	Every     int               `json:"every,omitempty"` // minutes between touches
	Heat      string            `json:"heat,omitempty"`  // "oven", "burner", "grill", "none"
	OvenC     int               `json:"ovenC,omitempty"`
	Where     planner.State     `json:"where,omitempty"`
	// vessels and appliances, in place of those read; [NoThings]: none
	Things []string `json:"things,omitempty"`
	Until  string   `json:"until,omitempty"` // [NoThings]: no sign
	// the steps that it comes right after, from 1; 0 alone: none
	After     []int         `json:"after,omitempty"`
	Takes     []int         `json:"takes,omitempty"` // ingredients that go into it and into no other, from 1
	Wait      int           `json:"wait,omitempty"`  // minutes for which what it leaves may wait
	WaitWhere planner.State `json:"waitWhere,omitempty"`
}

// NoThings is said in place of things or a sign when there are none.
const NoThings = "none"

// OfStep reports whether anything is said of a step.
func (c *Correction) OfStep() bool {
	return c.Food == 0 && c.Line == "" && (c.Drop || c.Split+c.Add+c.Do+c.Heat+c.Until != "" ||
		c.High+c.Every+c.OvenC+c.Wait > 0 ||
		c.Attention != "" || c.Where != "" || len(c.Things)+len(c.After)+len(c.Takes) > 0)
}

// Correct takes a correction into the reading; what it asks is then asked anew. The error is a *[Refusal], and nothing
// is changed then.
func (r *Reading) Correct(c Correction) error {
	r.keepNumbers()
	if c.Food > 0 || c.Line != "" {
		err := r.correctFood(&c)
		r.ask()
		return err
	}
	i := -1
	if c.OfStep() {
		if i = r.Numbered(c.Step); i < 0 {
			return r.noStep(c.Step)
		}
	}
	if c.Drop && len(r.Steps) == 1 {
		return Refuse("This is the only step there is.", "Say instead what is done, how long and where.")
	}
	if text := c.Split + c.Add; text != "" {
		all, err := r.stepsIn(text, c.Split != "")
		switch {
		case err != nil:
			return err
		case c.Add != "":
			r.put(i, all, c.Before, r.wantedBy(i, all))
		case len(all) == 1:
			return Refuse("I find one step in that.", "Write it as: 3 is two steps: poach it 25 minutes; shred it.")
		default:
			r.split(i, all)
		}
		r.ask()
		return nil
	}
	if len(c.After) > 0 {
		if err := r.orderAnew(i, c.After); err != nil {
			return err
		}
		i = r.Numbered(c.Step)
	}
	for _, g := range c.Takes {
		r.takes(i, g-1)
	}
	if c.Serves > 0 {
		r.Serves = c.Serves
	}
	if c.Title != "" {
		r.Title = c.Title
	}
	if c.Keeps != "" {
		r.keeps = c.Keeps
	}
	switch {
	case c.Drop:
		r.drop(i)
	case c.OfStep():
		r.Steps[i].correct(&c)
	}
	r.ask()
	return nil
}

func (s *Step) correct(c *Correction) {
	if c.Do != "" {
		s.Do = c.Do
	}
	if c.Wait > 0 {
		s.keptFor, s.keptIn = c.Wait, c.WaitWhere
	}
	if c.High > 0 {
		s.Time = measure.Duration{Low: c.Low, High: c.High}
		s.said, s.Guessed = s.Time, false
	}
	heat := c.Heat
	if c.OvenC > 0 {
		heat = "oven"
		s.Oven, s.Then = measure.Setting{Temperature: measure.Celsius(float64(c.OvenC))}, nil
	}
	switch heat {
	case "oven", "burner", "grill":
		s.Heat = map[string]planner.Equipment{"oven": planner.AnOven, "burner": planner.ABurner,
			"grill": planner.AGrill}[heat]
		s.kind = map[string]doing.Kind{"oven": doing.InOven, "burner": doing.OnBurner, "grill": doing.OnGrill}[heat]
		s.Where, s.Cooks = planner.Heat, true
	case "none":
		s.Heat, s.Oven, s.Then, s.kind, s.Cooks = "", measure.Setting{}, nil, doing.ByHand, false
		if s.Where == planner.Heat {
			s.Where = planner.Counter
		}
	}
	switch c.Where {
	case planner.Counter, planner.Refrigerator, planner.Freezer:
		s.Where = c.Where
		s.Heat, s.Oven, s.Then, s.Cooks = "", measure.Setting{}, nil, false
		if s.kind == doing.InOven || s.kind == doing.OnBurner || s.kind == doing.OverBurner || s.kind == doing.OnGrill {
			s.kind = doing.Standing
		}
	}
	if c.Attention != "" {
		s.Attention, s.Every = c.Attention, 0
	}
	if c.Every > 0 {
		s.Attention, s.Every = planner.Touch, c.Every
	}
	if s.Attention == planner.Touch && s.Every == 0 {
		s.Every = defaultEvery
	}
	if len(c.Things) > 0 {
		s.Things = nil
		for _, name := range c.Things {
			if name != NoThings {
				s.Things = ware.Add(s.Things, ware.Of(name))
			}
		}
	}
	if c.Until != "" {
		s.Until = strings.TrimSpace(c.Until)
		if s.Until == NoThings {
			s.Until = ""
		}
	}
}

// takes puts an ingredient into a step, and into no other but those that make it ready.
func (r *Reading) takes(i, g int) {
	if g < 0 || g >= len(r.Ingredients) {
		return
	}
	r.Steps = slices.Clone(r.Steps)
	for n := range r.Steps {
		s := &r.Steps[n]
		if s.Ready && n != i {
			continue
		}
		s.Parts = slices.DeleteFunc(slices.Clone(s.Parts), func(p int) bool { return p == g })
		if n == i {
			s.Parts = append(s.Parts, g)
			slices.Sort(s.Parts)
		}
	}
}

// defaultEvery is a touch step's rhythm in minutes where nobody says one: common practice, no source.
const defaultEvery = 15

// Number is the number that a step is shown with, by its index: it keeps it whatever is removed or put elsewhere.
func (r *Reading) Number(i int) int {
	if r.Steps[i].number > 0 {
		return r.Steps[i].number
	}
	return i + 1
}

// Numbered is the index of the step that is shown with a number; -1: none is.
func (r *Reading) Numbered(n int) int {
	for i := range r.Steps {
		if r.Number(i) == n {
			return i
		}
	}
	return -1
}

// keepNumbers gives each step the number that it was shown with, once.
func (r *Reading) keepNumbers() {
	if len(r.Steps) > 0 && r.Steps[0].number == 0 {
		r.Steps = slices.Clone(r.Steps)
		for i := range r.Steps {
			r.Steps[i].number = i + 1
		}
	}
}

// noStep refuses a number that no step has.
func (r *Reading) noStep(n int) error {
	if len(r.Steps) == 0 {
		return Refuse("There are no steps in this reading.", "Put it on the menu and add them with /step add.")
	}
	var all []string
	for i := range r.Steps {
		all = append(all, fmt.Sprint(r.Steps[i].number))
	}
	why := "Say which step you mean, by its number"
	if last := len(r.Steps) - 1; last > 0 && r.Steps[last].number == last+1 {
		return Refuse(fmt.Sprintf("%s: 1 to %d.", why, last+1), "")
	}
	if n > 0 {
		why = fmt.Sprintf("There is no step %d", n)
	}
	return Refuse(why+": "+strings.Join(all, ", ")+".", "")
}

// drop takes a step out. Those that came after it come after what it came after.
func (r *Reading) drop(i int) {
	gone := r.Steps[i]
	r.Steps = slices.Delete(slices.Clone(r.Steps), i, i+1)
	for n := range r.Steps {
		s := &r.Steps[n]
		if s.after == nil {
			continue
		}
		var after []int
		for _, a := range s.after {
			switch {
			case a == i:
				for _, b := range gone.after {
					if !slices.Contains(after, b) {
						after = append(after, b)
					}
				}
			case a > i:
				after = append(after, a-1)
			default:
				after = append(after, a)
			}
		}
		s.after = after
	}
	r.Remarks = slices.Clone(r.Remarks)
	for n := range r.Remarks {
		if r.Remarks[n].step > i {
			r.Remarks[n].step--
		}
	}
}
