package planner

import "time"

// Progress is how far a task has come.
type Progress string

// The stages of a task.
const (
	Waiting Progress = ""
	Started Progress = "started"
	Done    Progress = "done"
	Skipped Progress = "skipped"
)

// Work is what people have said about a task.
type Work struct {
	Task     TaskKey    `json:"task"`
	Person   PersonKey  `json:"person,omitempty"` // who has claimed it or was given it; empty: free
	By       PersonKey  `json:"by,omitempty"`     // who assigned it, if not the person
	Progress Progress   `json:"progress,omitempty"`
	Start    *time.Time `json:"start,omitempty"` // when it was really started
	End      *time.Time `json:"end,omitempty"`   // when it was done or skipped
	Extra    Minutes    `json:"extra,omitempty"` // more than planned, as reported while under way
	// it was said to begin no sooner than this; says nothing once it has begun
	NotBefore *time.Time `json:"notBefore,omitempty"`
	NotAfter  *time.Time `json:"notAfter,omitempty"` // and before this: the end of the day that it was said to be done on
	AtNight   bool       `json:"atNight,omitempty"`  // the person has accepted it within quiet hours
	Assumed   bool       `json:"assumed,omitempty"`  // nobody said so: its progress was taken as planned
	Noted     bool       `json:"noted,omitempty"`    // of shopping that is done: what was bought stands in Party.Bought
}

// StartsBefore is the instant before which a task was said to begin, in a plan that begins at an instant; nil where
// nobody said so, or that has passed by then.
func (w *Work) StartsBefore(from time.Time) *time.Time {
	if w == nil || w.NotAfter == nil || !w.NotAfter.After(from) ||
		w.NotBefore != nil && !w.NotAfter.After(*w.NotBefore) {
		return nil
	}
	return w.NotAfter
}

// WorkOn is what has been said about a task; nil when nothing has.
func (p *Party) WorkOn(k TaskKey) *Work {
	for i := range p.Work {
		if p.Work[i].Task == k {
			return &p.Work[i]
		}
	}
	return nil
}

// Progress is how far a task has come.
func (p *Party) Progress(k TaskKey) Progress {
	if w := p.WorkOn(k); w != nil {
		return w.Progress
	}
	return Waiting
}
