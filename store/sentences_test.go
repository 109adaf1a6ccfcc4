package store

import (
	"errors"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestPiecesThatCannotBeRead: whatever is broken is named by its kind and key.
func TestPiecesThatCannotBeRead(t *testing.T) {
	p := supper()
	pieces, err := split(&p, planFor(&p, 1))
	if err != nil {
		t.Fatal(err)
	}
	compare(nil, pieces)
	for i := range pieces {
		broken := slices.Clone(pieces)
		broken[i].doc = `{"]`
		if _, _, err := join(1, broken); err == nil {
			t.Errorf("%s %q: it is broken, and read", pieces[i].kind, pieces[i].key)
		}
	}
	for i := range pieces { // a field of another type
		broken := slices.Clone(pieces)
		broken[i].doc = `[1]`
		if _, _, err := join(1, broken); err == nil && pieces[i].kind != Setting && pieces[i].kind != KitchenPart {
			t.Errorf("%s %q: it is a list, and read", pieces[i].kind, pieces[i].key)
		}
	}
}

// TestErrorsAreSentences: each says what is wrong, and with which name, change or people.
func TestErrorsAreSentences(t *testing.T) {
	since := []Entry{{Actor: ben, What: "moved the soup"}, {Actor: ada, What: "left it out"}}
	for _, c := range []struct {
		err  error
		want []string
	}{
		{&NameTakenError{"Supper"}, []string{`"Supper"`, "another name"}},
		{&TouchedError{What: "x"}, []string{"cannot be taken back", "changed afterwards"}},
		{&TouchedError{What: "x", Since: since}, []string{"cannot be taken back",
			"by Ben (moved the soup), Ada (left it out)"}},
		{&caused{ErrBusy, errors.New("code 5")}, []string{"locked by another program"}},
	} {
		for _, part := range c.want {
			if !strings.Contains(c.err.Error(), part) {
				t.Errorf("%q does not say %q", c.err, part)
			}
		}
	}
	if said := (&TouchedError{What: "x"}).Error(); !strings.HasSuffix(said, "changed afterwards") {
		t.Errorf("by nobody else: %q", said)
	}
	cause := errors.New("code 5")
	if err := (&caused{ErrBusy, cause}); !errors.Is(err, ErrBusy) || !errors.Is(err, cause) {
		t.Error("an error and its cause are both known")
	}
}

// TestVerifyOfNoDatabase: what is no database is not whole.
func TestVerifyOfNoDatabase(t *testing.T) {
	path := filepath.Join(t.TempDir(), "soup.db")
	writeFile(t, path, []byte(strings.Repeat("soup ", 1000)))
	if err := verify(t.Context(), path); !errors.Is(err, ErrForeign) {
		t.Errorf("got %v, want that it is no database of tureen's", err)
	}
}

// TestWhatCannotBeWritten: what has no JSON is refused, with its kind; the first of several is told.
func TestWhatCannotBeWritten(t *testing.T) {
	odd := map[string]float64{"warm": math.NaN()}
	s := &splitter{seen: map[pieceKey]bool{}}
	s.fields(KitchenPart, odd)
	if s.err == nil || !strings.Contains(s.err.Error(), string(KitchenPart)) {
		t.Errorf("fields: %v", s.err)
	}
	s.add(DishPiece, "soup", odd)
	if !strings.Contains(s.err.Error(), string(KitchenPart)) {
		t.Errorf("the first is not told any more: %v", s.err)
	}
	s = &splitter{seen: map[pieceKey]bool{}}
	s.add(DishPiece, "soup", odd)
	if s.err == nil || !strings.Contains(s.err.Error(), `dish "soup"`) {
		t.Errorf("a piece: %v", s.err)
	}
}
