package partygen

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"tureen/planner"
)

// Saved is a shaped party with what it was drawn from.
type Saved struct {
	Shape
	Seed  uint64         `json:"seed"`
	Now   time.Time      `json:"now"` // when it is planned
	Party *planner.Party `json:"-"`
}

// ShapedFrom draws the party of a seed.
func ShapedFrom(seed uint64, s Shape) Saved {
	p, now := Shaped(Seeded(seed), s)
	return Saved{Shape: s, Seed: seed, Now: now, Party: p}
}

// Name names the party by its shape and seed, as files and benchmarks do.
func (s *Saved) Name() string {
	return fmt.Sprintf("dishes%02d-people%d-ovens%d-days%d-seed%d", s.Dishes, s.People, s.Ovens, s.Days, s.Seed)
}

// Write writes JSON values, one a line: the shape with its seed, the party without its dishes, then each dish.
func (s *Saved) Write() ([]byte, error) {
	var out bytes.Buffer
	rest := *s.Party
	rest.Dishes = nil
	lines := []any{s, rest}
	for _, d := range s.Party.Dishes {
		lines = append(lines, d)
	}
	enc := json.NewEncoder(&out)
	for _, l := range lines {
		if err := enc.Encode(l); err != nil {
			return nil, err
		}
	}
	return out.Bytes(), nil
}

// ReadSaved reads what Write writes.
func ReadSaved(r io.Reader) (Saved, error) {
	var s Saved
	dec := json.NewDecoder(r)
	if err := dec.Decode(&s); err != nil {
		return s, fmt.Errorf("shape: %w", err)
	}
	s.Party = &planner.Party{}
	if err := dec.Decode(s.Party); err != nil {
		return s, fmt.Errorf("party: %w", err)
	}
	for dec.More() {
		var d planner.Dish
		if err := dec.Decode(&d); err != nil {
			return s, fmt.Errorf("dish %d: %w", len(s.Party.Dishes)+1, err)
		}
		s.Party.Dishes = append(s.Party.Dishes, d)
	}
	return s, nil
}
