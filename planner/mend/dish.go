package mend

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/words"
)

// WorthMore is the time in minutes by which a mend lengthens such a wait.
const WorthMore = 15

// WorthLonger lets food wait a quarter of an hour longer before it is not worth serving.
func WorthLonger(d *planner.Dish, s *planner.Step) Change {
	const more = WorthMore
	dish, step := d.Key, s.Key
	return Change{Text: fmt.Sprintf("Let it wait %s longer after “%s” (%s).", words.Short(more), s.Do, d.Name),
		Kind: "floor " + string(dish) + string(step),
		Do: func(p *planner.Party) string {
			var do []string // one message each; the change takes one where one wait has such an end
			for i := range p.Dishes {
				d := &p.Dishes[i]
				for s := range d.Steps {
					st := &d.Steps[s]
					if d.Key == dish && st.Key == step && st.Serve != nil && st.Serve.WorthUntil > 0 {
						do = append(do, fmt.Sprintf("step serve step:%s/%s worth-until:%s", d.Key, st.Key,
							words.Short(st.Serve.WorthUntil+more)))
					}
					for _, f := range st.After {
						if f.Step == step && (f.Dish == dish || f.Dish == "" && d.Key == dish) && f.Wait.WorthUntil > 0 {
							do = append(do, fmt.Sprintf("step after step:%s/%s of:%s/%s worth-until:%s", d.Key, st.Key,
								dish, step, words.Short(f.Wait.WorthUntil+more)))
						}
					}
				}
			}
			if len(do) != 1 {
				return ""
			}
			return do[0]
		},
		Apply: func(p *planner.Party) bool {
			done := false
			for i := range p.Dishes {
				d := &p.Dishes[i]
				for s := range d.Steps {
					st := &d.Steps[s]
					if d.Key == dish && st.Key == step && st.Serve != nil && st.Serve.WorthUntil > 0 {
						st.Serve.WorthUntil += more
						done = true
					}
					for k := range st.After {
						f := &st.After[k]
						if f.Step == step && (f.Dish == dish || f.Dish == "" && d.Key == dish) && f.Wait.WorthUntil > 0 {
							f.Wait.WorthUntil += more
							done = true
						}
					}
				}
			}
			return done
		}}
}

// DropDish takes a dish off the menu, unless another needs it.
func DropDish(d *planner.Dish) Change {
	key := d.Key
	return Change{Text: fmt.Sprintf("Leave out %s.", d.Name), Kind: "drop " + string(key),
		Do: func(p *planner.Party) string { return fmt.Sprintf("dish remove dish:%s", key) },
		Apply: func(p *planner.Party) bool {
			for i := range p.Dishes {
				for _, s := range p.Dishes[i].Steps {
					if slices.ContainsFunc(s.After,
						func(a planner.After) bool { return a.Dish == key && p.Dishes[i].Key != key }) {
						return false
					}
				}
			}
			n := len(p.Dishes)
			p.Dishes = slices.DeleteFunc(p.Dishes, func(d planner.Dish) bool { return d.Key == key })
			return len(p.Dishes) < n
		}}
}
