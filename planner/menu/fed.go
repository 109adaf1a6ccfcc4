package menu

import (
	"fmt"
	"strings"

	"tureen/planner"
	"tureen/planner/words"
)

// unfed counts the guests whom a course leaves nothing that they surely may eat, and names dishes that no guest can
// eat. It does not say who they are nor why: that is for the cooks ([Unfed]) and not for the whole channel. What may be
// left out of a dish does not count, and a dish of which nothing is known may suit anybody.
func unfed(p *planner.Party) []string {
	var out []string
	vs := verdicts{p: p}
	for i := range p.Courses {
		c := &p.Courses[i]
		if n := len(left(p, c, &vs)); n > 0 {
			out = append(out, fmt.Sprintf("%s leaves %s nothing, as far as the ingredients tell: add a dish, or change one. "+
				"The cooks can look up whom.",
				words.Upper(c.Name), words.Count(n, "guest")))
		}
		for _, d := range menuOf(p, c) {
			if n, barred := barredFrom(p, c, d, &vs); n >= 2 && barred == n {
				out = append(out, fmt.Sprintf("None of the %d guests whom you have named can eat %s, as far as the ingredients "+
					"tell.", n, d.Name))
			}
		}
	}
	return out
}

// left lists the guests whom a course leaves nothing.
func left(p *planner.Party, c *planner.Course, vs *verdicts) []*planner.Guest {
	dishes := menuOf(p, c)
	var out []*planner.Guest
	for j := range p.Guests {
		g := &p.Guests[j]
		fed := len(dishes) == 0 || !Eats(c, g)
		for _, d := range dishes {
			fed = fed || vs.of(d, g) != Not
		}
		if !fed {
			out = append(out, g)
		}
	}
	return out
}

// barredFrom counts the guests who are served a course, and those for whom one of its dishes is not.
func barredFrom(p *planner.Party, c *planner.Course, d *planner.Dish, vs *verdicts) (guests, barred int) {
	for j := range p.Guests {
		g := &p.Guests[j]
		if !Eats(c, g) {
			continue
		}
		guests++
		if vs.of(d, g) == Not {
			barred++
		}
	}
	return guests, barred
}

// Unfed says, for the cooks alone, whom a course leaves nothing or only the lesser part, and what would help.
func Unfed(p *planner.Party) []string {
	var out []string
	vs := verdicts{p: p}
	for i := range p.Courses {
		c := &p.Courses[i]
		dishes := menuOf(p, c)
		for _, g := range left(p, c, &vs) {
			help := ""
			for _, d := range dishes {
				if help = Help(p, d, g); help != "" {
					break
				}
			}
			if help == "" {
				help = "No substitution that I know of would help: add a dish, or change one."
			}
			out = append(out, fmt.Sprintf("%s leaves %s nothing, as far as the ingredients tell. %s", words.Upper(c.Name),
				g.Name, help))
		}
		for j := range p.Guests {
			g := &p.Guests[j]
			var can []string
			for _, d := range dishes {
				switch vs.of(d, g) {
				case Unknown:
					can = append(can, d.Name+", of which nothing is known,")
				case Free, Check:
					can = append(can, d.Name)
				}
			}
			if Eats(c, g) && len(can) > 0 && 2*len(can) <= len(dishes) {
				out = append(out, fmt.Sprintf("%s: of %d dishes %s is left %s. Is that enough?", words.Upper(c.Name),
					len(dishes), g.Name, strings.TrimSuffix(strings.Join(can, " and "), ",")))
			}
		}
	}
	return out
}
