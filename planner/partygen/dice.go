package partygen

import (
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
)

// Dice are where a generator's choices come from: a rapid test, which can shrink them, or a saved seed.
type Dice interface {
	// Roll gives a number from low to high, both included.
	Roll(low, high int) int
}

// Seeded are the dice of a saved seed: equal seeds make equal parties.
func Seeded(seed uint64) Dice { return seeded{rand.New(rand.NewPCG(seed, 0x7475726565))} }

type seeded struct{ r *rand.Rand }

func (d seeded) Roll(low, high int) int { return low + d.r.IntN(high-low+1) }

// Rapid are the dice of a property test.
func Rapid(t *rapid.T) Dice { return drawn{t} }

type drawn struct{ t *rapid.T }

func (d drawn) Roll(low, high int) int { return rapid.IntRange(low, high).Draw(d.t, "roll") }

// chance is true n times in a hundred.
func chance(d Dice, n int) bool { return d.Roll(1, 100) <= n }

func pick[T any](d Dice, list ...T) T { return list[d.Roll(0, len(list)-1)] }

func minutes(d Dice, low, high int) planner.Minutes { return planner.Minutes(d.Roll(low, high)) }

// spread is a duration range around a likely one.
func spread(likely planner.Minutes) planner.Span {
	return planner.Span{Low: max(likely*3/4, 1), Likely: likely, High: likely * 3 / 2}
}

// Parties is how many parties a test makes: the usual number, or TUREEN_PARTIES.
func Parties(t testing.TB, usual int) int {
	t.Helper()
	text := os.Getenv("TUREEN_PARTIES")
	if text == "" {
		return usual
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatalf("TUREEN_PARTIES is a number of parties, not %q", text)
	}
	return n
}
