package bot

import (
	"slices"

	"tureen/planner"
)

// workOn is what is said about a task, made when nothing was said yet.
func (t *Turn) workOn(k planner.TaskKey) *planner.Work {
	if w := t.Party.WorkOn(k); w != nil {
		return w
	}
	t.Party.Work = append(t.Party.Work, planner.Work{Task: k})
	return &t.Party.Work[len(t.Party.Work)-1]
}

// tidyWork drops notes of work that say nothing.
func (t *Turn) tidyWork() {
	t.Party.Work = slices.DeleteFunc(t.Party.Work, func(w planner.Work) bool {
		return w == planner.Work{Task: w.Task}
	})
}
