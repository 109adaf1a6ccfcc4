package solve

import (
	"errors"
	"strings"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
)

// unsound is the error of [Make] where the plan that it found breaks a rule by the independent checker's word, which
// is looked at last of all. Such a plan is never given out. What it breaks is nearly always past: food that has waited,
// people who have left.
type unsound struct{ Broken []check.Broken }

// Error says what is broken, in a host's words; it may stand in a log, without marks.
func (u *unsound) Error() string {
	var said []string
	for _, r := range u.requirements() {
		said = append(said, r.Text)
	}
	return words.PlainStamps(strings.Join(said, " "))
}

// requirements are what is broken as things that cannot be kept.
func (u *unsound) requirements() []Requirement {
	const most = 3 // that are said
	var out []Requirement
	for _, b := range u.Broken[:min(len(u.Broken), most)] {
		out = append(out, Requirement{Text: b.Text, Task: b.Task, Limit: b.Rule == check.RuleClocks})
	}
	return out
}

// AsClash is an error of [Make] as the clash that it comes to; nil for any other error.
func AsClash(err error) *Clash {
	if u := (*unsound)(nil); errors.As(err, &u) {
		return &Clash{Requirements: u.requirements()}
	}
	return nil
}

// sound is the last look at a plan before it leaves.
func (g *graph) sound(plan *planner.Plan) error {
	if broken := g.judge.Plan(plan); len(broken) > 0 {
		return &unsound{broken}
	}
	return nil
}
