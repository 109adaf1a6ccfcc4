package solve_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"tureen/planner/partygen"
	"tureen/planner/solve"
)

var saveShapes = flag.Bool("saveshapes", false, "draw the parties of testdata/shapes anew")

// savedShapes are the shapes of the saved parties: what a household may ask for, from four dishes to twenty.
var savedShapes = []partygen.Shape{
	{Dishes: 4, People: 1, Ovens: 1, Days: 5},
	{Dishes: 4, People: 2, Ovens: 1, Days: 5},
	{Dishes: 4, People: 4, Ovens: 2, Days: 5},
	{Dishes: 8, People: 1, Ovens: 2, Days: 5},
	{Dishes: 8, People: 2, Ovens: 1, Days: 5},
	{Dishes: 8, People: 3, Ovens: 1, Days: 5},
	{Dishes: 8, People: 5, Ovens: 2, Days: 5},
	{Dishes: 12, People: 2, Ovens: 2, Days: 5},
	{Dishes: 12, People: 3, Ovens: 1, Days: 5},
	{Dishes: 12, People: 4, Ovens: 2, Days: 5},
	{Dishes: 12, People: 6, Ovens: 1, Days: 5},
	{Dishes: 20, People: 3, Ovens: 2, Days: 5},
	{Dishes: 20, People: 4, Ovens: 2, Days: 5},
	{Dishes: 20, People: 6, Ovens: 2, Days: 5},
}

const shapesDir = "testdata/shapes"

// shapes reads the saved parties.
func shapes(t testing.TB) []partygen.Saved {
	files, err := filepath.Glob(filepath.Join(shapesDir, "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no saved parties: %v", err)
	}
	var out []partygen.Saved
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		s, err := partygen.ReadSaved(bytes.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", f, err)
		}
		if s.Name()+".json" != filepath.Base(f) {
			t.Errorf("%s holds %s", f, s.Name())
		}
		out = append(out, s)
	}
	return out
}

// The saved parties are what their seeds draw, and make sense.
func TestSavedShapesAreWhatTheirSeedsDraw(t *testing.T) {
	if *saveShapes {
		drawShapes(t)
	}
	for _, s := range shapes(t) {
		fresh := partygen.ShapedFrom(s.Seed, s.Shape)
		got, err := fresh.Write()
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(filepath.Join(shapesDir, s.Name()+".json"))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s: its seed draws another party; draw them anew with -saveshapes", s.Name())
		}
		for _, f := range s.Party.Validate() {
			t.Errorf("%s: %s", s.Name(), f.Text)
		}
		if len(s.Party.Dishes) != s.Dishes || len(s.Party.People) != s.People ||
			len(s.Party.Kitchen.Ovens) != s.Ovens ||
			s.Party.PrepDays != s.Days-1 {
			t.Errorf("%s: the party is of another shape", s.Name())
		}
	}
}

// drawShapes saves, of every shape, the parties of the first two seeds that have a plan.
func drawShapes(t *testing.T) {
	if err := os.MkdirAll(shapesDir, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, shape := range savedShapes {
		saved := 0
		for seed := uint64(1); saved < 2 && seed <= 40; seed++ {
			s := partygen.ShapedFrom(seed, shape)
			plan, _, err := solve.Make(t.Context(), s.Party, solve.Ask{Now: s.Now, FirstOnly: true})
			if err != nil {
				t.Fatal(err)
			}
			if plan == nil {
				t.Logf("%s has no plan", s.Name())
				continue
			}
			text, err := s.Write()
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(shapesDir, s.Name()+".json"), text, 0o644); err != nil {
				t.Fatal(err)
			}
			saved++
		}
	}
}

// Every saved party has a first plan, and small ones a better one, that keep every rule by every means there is.
func TestSavedShapesArePlanned(t *testing.T) {
	for _, s := range shapes(t) {
		ask := solve.Ask{Now: s.Now, FirstOnly: true}
		if s.Dishes <= 8 {
			ask = solve.Ask{Now: s.Now, Work: 500_000}
		}
		plan, clash, err := solve.Make(t.Context(), s.Party, ask)
		if err != nil || plan == nil {
			t.Errorf("%s: %v %+v", s.Name(), err, clash)
			continue
		}
		judge(t, int(s.Seed), s.Party, ask, plan)
	}
}
