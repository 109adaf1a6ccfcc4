package planner

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// PersonKey names a person within a party. It is the folded name at the time of joining and never changes.
type PersonKey string

// CourseKey names a course within a party.
type CourseKey string

// DishKey names a dish within a party.
type DishKey string

// StepKey names a step within its dish.
type StepKey string

// ChoreKey names a chore within a party.
type ChoreKey string

// MaxKey is the longest key in bytes, so that a task's key fits a chat button with bytes to spare.
const MaxKey = 28

// Key folds a name to what keys are made of: lower-case letters and digits of any script with the
// accents taken off, joined by single hyphens, at most [MaxKey] bytes and then cut between words where it
// can be. It is empty when nothing remains.
func Key(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFD.String(strings.ToLower(name)) {
		switch {
		case unicode.Is(unicode.Mn, r):
			continue
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			if b.Len()+len(string(r)) > MaxKey {
				return wholeWords(b.String())
			}
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return b.String()
}

// wholeWords leaves out the last word of a key that was cut, unless it is the only one.
func wholeWords(key string) string {
	if i := strings.LastIndexByte(key, '-'); i > 0 {
		key = key[:i]
	}
	return strings.TrimRight(key, "-")
}
