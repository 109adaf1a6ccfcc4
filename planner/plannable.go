package planner

import (
	"errors"
	"fmt"
	"time"
)

// Plannable refuses a party whose sizes no planner can work with, before anything is built from them. Everything else
// that makes no sense is for [Party.Validate], which says it better; here is what would take all memory.
func (p *Party) Plannable() error {
	switch {
	case p.Arrival.IsZero():
		return fmt.Errorf("say when the guests arrive, with date and time")
	case p.Covers > MaxCovers:
		return fmt.Errorf("lay at most %d covers, not %d", MaxCovers, p.Covers)
	case p.PrepDays < 0 || p.PrepDays > MaxPrepDays:
		return fmt.Errorf("give the days of prep from 0 to %d, not %d", MaxPrepDays, p.PrepDays)
	}
	if odd := ValidateKitchen(&p.Kitchen); len(odd) > 0 {
		return errors.New(odd[0].Text)
	}
	for i := range p.Courses {
		for _, s := range p.Courses[i].Servings {
			if off := s.At.Sub(p.Arrival); off < -24*time.Hour || off > 48*time.Hour || s.Early < 0 || s.Late < 0 ||
				s.Early > maxWindow || s.Late > maxWindow {
				return fmt.Errorf("serve %s on the party's day", p.Courses[i].Key)
			}
		}
	}
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			if n := p.Fit(d, s).Rounds; n > MaxRounds {
				return fmt.Errorf("make more covers a round of %s, or find more to make it in: “%s” would take %d rounds, "+
					"and %d "+
					"are the most", d.Name, s.Do, n, MaxRounds)
			}
			if s.Time.Likely < 0 || s.Time.Likely > MaxLength || s.MaxHands > MaxHands || s.Hands > MaxHands {
				return fmt.Errorf("give %s times of at most 7 days and at most %d hands", d.Name, MaxHands)
			}
		}
	}
	for i := range p.Chores {
		if c := &p.Chores[i]; c.Time.Likely < 0 || c.Time.Likely > MaxLength || c.MaxHands > MaxHands || c.Hands > MaxHands {
			return fmt.Errorf("give %s a time of at most 7 days and at most %d hands", c.Do, MaxHands)
		}
	}
	return nil
}
