// Command peers scores ways to make one of many and many of one on the pairs that were checked by hand: two libraries,
// and planner/words with its table. Each is given the noun alone, in the form that a name has it. Run it here:
//
//	go run . ../pairs.tsv
//	go run . -v ../pairs.tsv    # and what each gets wrong
package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/gertd/go-pluralize"
	"github.com/jinzhu/inflection"
	"tureen/planner/words"
)

func main() {
	args := os.Args[1:]
	verbose := len(args) > 0 && args[0] == "-v"
	if verbose {
		args = args[1:]
	}
	text, err := os.ReadFile(args[0])
	if err != nil {
		panic(err)
	}
	client := pluralize.NewClient()
	fmt.Printf("%-28s %14s %14s %14s %14s\n", "right, of words in each kind", "", "regular", "odd", "uncounted")
	for _, way := range []struct {
		name      string
		one, many func(string) string
	}{
		{"gertd/go-pluralize v0.2.1", client.Singular, client.Plural},
		{"jinzhu/inflection v1.0.0", inflection.Singular, inflection.Plural},
		{"planner/words", words.Singular, words.Plural},
	} {
		turns := []string{"singular of the plural", "plural of the singular",
			"singular of the singular", "plural of the plural"}
		for _, turn := range turns {
			right, all := map[string]int{}, map[string]int{}
			for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n")[1:] {
				cell := strings.Split(line, "\t")
				one, many := noun(cell[0], cell[1])
				from, want, do := many, one, way.one
				switch turn {
				case "plural of the singular":
					from, want, do = one, many, way.many
				case "singular of the singular":
					from, want = one, one
				case "plural of the plural":
					from, want, do = many, many, way.many
				}
				all[cell[2]]++
				if got := do(from); got == want {
					right[cell[2]]++
				} else if verbose {
					fmt.Printf("  %s: %s: %s, not %s\n", turn, from, got, want)
				}
			}
			fmt.Printf("%-28s", way.name)
			fmt.Printf(" %s", turn)
			for _, kind := range []string{"regular", "odd", "uncounted"} {
				fmt.Printf(" %7d/%d", right[kind], all[kind])
			}
			fmt.Println()
		}
	}
}

// noun is the word in which two names differ; the last where they do not.
func noun(one, many string) (string, string) {
	a, b := strings.Fields(one), strings.Fields(many)
	for i := range a {
		if a[i] != b[i] {
			return strings.TrimRight(a[i], ","), strings.TrimRight(b[i], ",")
		}
	}
	return a[len(a)-1], b[len(b)-1]
}
