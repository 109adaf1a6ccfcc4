package planner

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tureen/planner/words"
)

// didYouMean is a sentence with the names nearest to a wrong one, with a space before it; without any near
// one it lists the first few there are, and is empty when there are none.
func didYouMean(wrong string, known []string) string {
	known = slices.Compact(slices.Sorted(slices.Values(known)))
	if len(known) == 0 {
		return ""
	}
	wrong = words.Fold(wrong)
	type near struct {
		name string
		far  int
	}
	var found []near
	for _, k := range known {
		folded := words.Fold(k)
		far := editDistance(wrong, folded)
		if wrong != "" && (far <= max(1, len([]rune(k))/3) || strings.Contains(folded, wrong)) {
			found = append(found, near{k, far})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return cmp.Compare(a.far, b.far) })
	if len(found) == 0 {
		list := strings.Join(known[:min(len(known), 6)], ", ")
		if len(known) > 6 {
			list += ", …"
		}
		return fmt.Sprintf(" There is: %s.", list)
	}
	list := make([]string, 0, 3)
	for _, f := range found[:min(len(found), 3)] {
		list = append(list, f.name)
	}
	return fmt.Sprintf(" Did you mean %s?", words.Or(list))
}

// editDistance counts the letters to insert, drop or replace to make b of a. Long texts are cut, since a
// name that differs in its first 40 letters is not near.
func editDistance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	ra, rb = ra[:min(len(ra), 40)], rb[:min(len(rb), 40)]
	row := make([]int, len(rb)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range ra {
		diagonal := row[0]
		row[0] = i + 1
		for j, y := range rb {
			replaced := diagonal
			if x != y {
				replaced++
			}
			diagonal = row[j+1]
			row[j+1] = min(replaced, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(rb)]
}
