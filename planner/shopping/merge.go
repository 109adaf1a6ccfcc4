package shopping

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// merge adds up what is the same thing, and sorts by name.
func merge(all []piece) []Line {
	var lines []Line
	at := map[string]int{}
	for _, x := range all {
		name := fold(x.line.Name)
		if x.line.Frozen {
			name += " (frozen)"
		}
		i, ok := at[name]
		if !ok {
			at[name] = len(lines)
			lines = append(lines, x.line)
			continue
		}
		lines[i].join(x.line)
	}
	slices.SortStableFunc(lines, func(a, b Line) int { return strings.Compare(fold(a.Name), fold(b.Name)) })
	return lines
}

// join takes another line of the same thing into this one.
func (l *Line) join(o Line) {
	if len(o.Name) > len(l.Name) {
		l.Name = o.Name // the plural, mostly
	}
	for _, q := range o.Amounts {
		added := false
		for i := range l.Amounts {
			if l.Amounts[i].Adds(q) {
				if sum, err := l.Amounts[i].Add(q); err == nil {
					l.Amounts[i], added = sum, true
					break
				}
			}
		}
		if !added {
			l.Amounts = append(l.Amounts, q)
		}
	}
	l.AsWritten = append(l.AsWritten, o.AsWritten...)
	for _, d := range o.For {
		if !slices.Contains(l.For, d) {
			l.For = append(l.For, d)
		}
	}
	for _, n := range o.Notes {
		if !slices.Contains(l.Notes, n) {
			l.Notes = append(l.Notes, n)
		}
	}
	l.Optional = l.Optional && o.Optional
	l.FirstUse, l.BuyBy = sooner(l.FirstUse, o.FirstUse), sooner(l.BuyBy, o.BuyBy)
	if o.NotBefore.After(l.NotBefore) {
		l.NotBefore = o.NotBefore
	}
}

func sooner(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

// fold makes one word of "Onion" and "onions".
func fold(name string) string {
	words := strings.Fields(strings.ToLower(name))
	for i, w := range words {
		words[i] = singular(w)
	}
	return strings.Join(words, " ")
}

func singular(w string) string {
	switch {
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return strings.TrimSuffix(w, "ies") + "y"
	case strings.HasSuffix(w, "oes") && len(w) > 4:
		return strings.TrimSuffix(w, "es")
	case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && len(w) > 3:
		return strings.TrimSuffix(w, "s")
	}
	return w
}

func forCovers(serves, makes int) string {
	return fmt.Sprintf("for %d covers; you cook for %d", serves, makes)
}
