// Command budget.d holds every package to its line in .ci/budget, and says by how much one is over:
//
//	go run ./.ci/budget.d            # what CI asks
//	go run ./.ci/budget.d -list      # every wide line and long function there is
//	go run ./.ci/budget.d -print     # the table as the house stands now, to put into .ci/budget
//
// What it counts, in files that are not tests:
//
//   - lines: those with Go on them; blank ones and comments are free.
//   - names: exported ones, of packages and as methods of exported types.
//   - files.
//   - wide: lines of more than 120 characters, a tab counting as one; in tests too.
//   - long: functions of more than 80 lines from "func" to the last brace, or of a cyclomatic complexity over 30 (one,
//     and one more for every if, for, case, && and ||), unless a line of their comment begins with "Kept whole:" and
//     gives the reason.
//
// What serves tests alone (planner/partygen, say) may have as many lines, names and files as it likes.
package main

import (
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
)

const (
	mostColumns    = 120
	tabColumns     = 1
	mostLines      = 80
	mostComplexity = 30
	wholeBecause   = "Kept whole:"
	mostPackage    = 5000 // lines of a package without a reason behind its line in the table
)

// free are the packages that serve tests alone.
var free = []string{"planner/partygen", "bot/discord/standin", "store/held"}

// figures are what a package has, or may have, by the columns of the table.
type figures [5]int

var columns = [...]string{"lines", "names", "files", "wide", "long"}

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("budget", flag.ContinueOnError)
	flags.SetOutput(errs)
	root := flags.String("root", ".", "where the module stands")
	show := flags.Bool("print", false, "print the table as it would be now")
	list := flags.Bool("list", false, "list wide lines and long functions")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	house, err := measure(*root)
	if err != nil {
		fmt.Fprintln(errs, "budget:", err)
		return 2
	}
	text, err := os.ReadFile(*root + "/.ci/budget")
	if err != nil {
		fmt.Fprintln(errs, "budget:", err)
		return 2
	}
	table, err := read(string(text))
	if err != nil {
		fmt.Fprintln(errs, "budget:", err)
		return 2
	}
	switch {
	case *show:
		house.print(out, table)
		return 0
	case *list:
		for _, name := range house.names() {
			for _, o := range house[name].offenders {
				fmt.Fprintln(out, o)
			}
		}
		return 0
	}
	over := house.over(table)
	for _, o := range over {
		fmt.Fprintln(errs, "budget:", o)
	}
	if len(over) > 0 {
		return 1
	}
	has, may := house.total(), table.total()
	fmt.Fprintf(out, "within budget: %d packages, %d of %d lines, %d of %d exported names, %d of %d files,"+
		" %d of %d wide lines, %d of %d long functions\n", len(house),
		has[0], may[0], has[1], may[1], has[2], may[2], has[3], may[3], has[4], may[4])
	return 0
}

// row is a line of the table: what a package may have, and why where that needs saying.
type row struct {
	may figures
	why string
}

type budget map[string]row

// read reads the table: a package a line, its figures, and a reason after "#". Lines of "#" alone are comments.
func read(text string) (budget, error) {
	b := budget{}
	for i, line := range strings.Split(text, "\n") {
		line, why, _ := strings.Cut(line, "#")
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "package" {
			continue
		}
		if len(words) != 1+len(columns) {
			return nil, fmt.Errorf(".ci/budget:%d: a package and %d figures expected", i+1, len(columns))
		}
		r := row{why: strings.TrimSpace(why)}
		for k, w := range words[1:] {
			n, err := strconv.Atoi(w)
			if err != nil {
				return nil, fmt.Errorf(".ci/budget:%d: %q is no number", i+1, w)
			}
			r.may[k] = n
		}
		b[words[0]] = r
	}
	return b, nil
}

func (b budget) total() (sum figures) {
	for _, r := range b {
		for k, n := range r.may {
			sum[k] += n
		}
	}
	return sum
}

// over says what is over its budget, and where.
func (h house) over(b budget) []string {
	var out []string
	for _, name := range h.names() {
		r, ok := b[name]
		if !ok {
			out = append(out, name+" has no line in .ci/budget")
			continue
		}
		p := h[name]
		if r.may[0] > mostPackage && r.why == "" {
			out = append(out, fmt.Sprintf("%s may have over %d lines: its line must say why, after #", name, mostPackage))
		}
		for k, n := range p.has {
			if n <= r.may[k] {
				continue
			}
			more := n - r.may[k]
			out = append(out, fmt.Sprintf("%s has %d %s, %d more than its budget of %d", name, n, columns[k], more, r.may[k]))
			for _, o := range p.offenders {
				if o.column == k {
					out = append(out, "  "+o.String())
				}
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(b)) {
		if h[name] == nil {
			out = append(out, name+" has a line in .ci/budget and is not there")
		}
	}
	return out
}

// print writes the table with what the house has, lines rounded up to the next ten; reasons are kept.
func (h house) print(out io.Writer, b budget) {
	fmt.Fprint(out, header)
	fmt.Fprintf(out, "%-22s", "package")
	for _, c := range columns {
		fmt.Fprintf(out, "%7s", c)
	}
	fmt.Fprintln(out)
	for _, name := range h.names() {
		has := h[name].has
		has[0] = (has[0] + 9) / 10 * 10
		line := fmt.Sprintf("%-22s", name)
		for _, n := range has {
			line += fmt.Sprintf("%7d", n)
		}
		if why := b[name].why; why != "" {
			line += "  # " + why
		}
		fmt.Fprintln(out, line)
	}
}

const header = `# What each package may have: lines of Go, exported names, files, wide lines, long functions.
# .ci/budget.d/main.go says how they are counted, and fails CI above them; with -print it writes this table anew.
# Raising a figure is a commit of its own, which says what that buys and what went out for it (DEVELOPERS.md).
`
