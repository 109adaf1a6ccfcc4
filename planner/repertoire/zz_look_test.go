package repertoire

import (
	"fmt"
	"os"
	"testing"

	"tureen/planner/scale"
)

func TestZZLook(t *testing.T) {
	f, _ := os.Create("/tmp/look/out.txt")
	defer f.Close()
	for _, c := range List() {
		d := c.Dish()
		fmt.Fprintf(f, "\n### %s (serves %d)\n", c.Name, c.Serves)
		for i, in := range d.Ingredients {
			fmt.Fprintf(f, "  %-28s", in.Amount+" "+in.Name)
			for _, n := range []int{4, 10, 23} {
				l := scale.For(&d, n)[i]
				fmt.Fprintf(f, " | %d: %s", n, l.Amount)
				if l.Note != "" {
					fmt.Fprintf(f, " [%s]", l.Note)
				}
			}
			fmt.Fprintln(f)
		}
		for _, n := range []int{4, 10, 23} {
			p := homeParty(n, c)
			d := &p.Dishes[0]
			fmt.Fprintf(f, "  -- %d\n", n)
			for _, w := range scale.Work(p, d) {
				fmt.Fprintf(f, "     %s\n", w)
			}
			for _, w := range scale.Pans(p, d) {
				fmt.Fprintf(f, "     %s\n", w)
			}
		}
	}
}
