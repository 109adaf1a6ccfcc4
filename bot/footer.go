package bot

import (
	"sync"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/safety"
)

// What goes with every answer on limits and allergens is said whole once a day and party, and in short after that: what
// is read under each reply is soon read under none.

var inShort = map[string]string{
	safety.Caution: safety.CautionInShort, safety.AllergenCaution: safety.AllergenCautionInShort,
}

// footers remembers what has been said whole today. It is not stored: a program that starts anew says it once more.
type footers struct {
	mu   sync.Mutex
	day  string
	said map[footer]bool
}

type footer struct {
	party planner.PartyID
	to    string // whom alone it was said to; empty for everybody
	text  string
}

// shorten puts what was said whole to the same people today into its short form.
func (f *footers) shorten(rep *talk.Reply, party planner.PartyID, user string, now time.Time) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if day := now.Format(time.DateOnly); day != f.day {
		f.day, f.said = day, map[footer]bool{}
	}
	for i, all := range [][]talk.Section{rep.Sections, rep.Aside} {
		to := ""
		if i == 1 || rep.Private {
			to = user
		}
		for _, s := range all {
			for n, line := range s.Lines {
				short, is := inShort[line]
				k := footer{party, to, line}
				switch {
				case is && f.said[k]:
					s.Lines[n] = short
				case is:
					f.said[k] = true
				}
			}
		}
	}
}
