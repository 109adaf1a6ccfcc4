package repertoire

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/safety"
)

// readCard reads one card. It is strict: an unknown word is an error, with its line.
func readCard(text string) (Card, error) {
	r := cardReader{}
	for n, line := range strings.Split(text, "\n") {
		trimmed := strings.TrimSpace(line)
		if trimmed == "" {
			continue
		}
		var err error
		switch {
		case strings.HasPrefix(line, " "):
			err = r.property(trimmed)
		case strings.HasPrefix(trimmed, "step "):
			err = r.newStep(trimmed)
		case strings.Contains(trimmed, "|"):
			err = r.ingredient(trimmed)
		default:
			err = r.head(trimmed)
		}
		if err != nil {
			return Card{}, fmt.Errorf("line %d: %w", n+1, err)
		}
	}
	return r.finish()
}

type cardReader struct {
	card Card
	step *planner.Step // the one being read
}

func (r *cardReader) head(line string) error {
	key, value, ok := strings.Cut(line, ": ")
	if !ok || len(r.card.dish.Steps) > 0 {
		return fmt.Errorf("%q is no line of a card's head", line)
	}
	d := &r.card.dish
	var err error
	switch key {
	case "name":
		r.card.Name, d.Name = value, value
	case "course":
		r.card.Course, d.Course = planner.CourseKey(value), planner.CourseKey(value)
	case "diets":
		for _, name := range strings.Split(value, ", ") {
			r.card.Diets = append(r.card.Diets, safety.Diet(name))
		}
	case "serves":
		d.Serves, err = strconv.Atoi(value)
		r.card.Serves = d.Serves
	case "plate":
		d.Plate = value
	case "note":
		d.Note = value
	case "source":
		r.card.Source = value
	case "ahead":
		r.card.Ahead = planner.StepKey(value)
	default:
		err = fmt.Errorf("a card has no %q", key)
	}
	return err
}

// ingredient reads "amount | name | shop, section | more, more". Without a shop it is in the house.
func (r *cardReader) ingredient(line string) error {
	fields := strings.Split(line, "|")
	for i := range fields {
		fields[i] = strings.TrimSpace(fields[i])
	}
	if len(fields) < 3 || len(fields) > 4 {
		return fmt.Errorf("an ingredient is amount | name | shop, section | more: %q", line)
	}
	in := planner.Ingredient{Amount: fields[0], Name: fields[1]}
	if in.Amount == "to taste" {
		in.Amount = ""
	}
	if fields[2] == "in the house" {
		in.Have = true
	} else {
		var ok bool
		in.ShopUsual = true
		if in.Shop, in.Section, ok = strings.Cut(fields[2], ", "); !ok {
			return fmt.Errorf("where is it bought: %q", fields[2])
		}
	}
	if len(fields) == 4 {
		for _, more := range strings.Split(fields[3], ", ") {
			word, rest, _ := strings.Cut(more, " ")
			switch word {
			case "keeps":
				m, err := minutes(rest)
				if err != nil {
					return err
				}
				in.KeepDays = int(m) / (24 * 60)
			case "for":
				in.Step = planner.StepKey(rest)
			case "frozen":
				g, err := strconv.Atoi(strings.TrimSuffix(rest, " g"))
				if err != nil {
					return err
				}
				in.Frozen, in.Grams = true, g
			case "optional":
				in.Optional = true
			case "note":
				in.Note = rest
			default:
				return fmt.Errorf("an ingredient has no %q", more)
			}
		}
	}
	r.card.dish.Ingredients = append(r.card.dish.Ingredients, in)
	return nil
}

func (r *cardReader) newStep(line string) error {
	key, do, ok := strings.Cut(strings.TrimPrefix(line, "step "), ": ")
	if !ok || do == "" || planner.Key(key) != key {
		return fmt.Errorf("a step is \"step key: what to do\": %q", line)
	}
	d := &r.card.dish
	if d.Step(planner.StepKey(key)) != nil {
		return fmt.Errorf("two steps %q", key)
	}
	d.Steps = append(d.Steps, planner.Step{Key: planner.StepKey(key), Do: do})
	r.step = &d.Steps[len(d.Steps)-1]
	return nil
}

// property reads an indented line below a step.
func (r *cardReader) property(line string) error {
	if r.step == nil {
		return fmt.Errorf("%q belongs to no step", line)
	}
	s := r.step
	word, rest, _ := strings.Cut(line, " ")
	parts := strings.Split(rest, ", ")
	switch word {
	case "hands", "watch", "touch", "unattended":
		s.Attention = planner.Attention(word)
		return r.duration(parts)
	case "where":
		return r.where(parts)
	case "leaves":
		return r.leaves(parts)
	case "oven", "burner", "grill", "counter", "uses":
		u, err := use(word, parts)
		s.Uses = append(s.Uses, u)
		return err
	case "after":
		key, how, ok := strings.Cut(rest, ": ")
		if !ok {
			return fmt.Errorf("\"after step: state, ...\", not %q", line)
		}
		a := planner.After{Step: planner.StepKey(key)}
		if r.card.dish.Step(a.Step) == nil || a.Step == s.Key {
			return fmt.Errorf("no step %q before this one", key)
		}
		parts = strings.Split(how, ", ")
		if parts[0] == "from its start" {
			a.FromStart, parts = true, parts[1:]
			parts = append([]string{"straight"}, parts...)
		}
		w, err := wait(parts)
		a.Wait = w
		s.After = append(s.After, a)
		return err
	case "serve":
		w, err := wait(parts)
		s.Serve = &w
		return err
	case "cool":
		return r.cool(parts)
	case "until":
		s.Until = rest
	case "part":
		s.Component = rest
	case "when":
		if rest != "called" {
			return fmt.Errorf("%q is nothing that a step has", line)
		}
		s.WhenCalled = true
	default:
		return fmt.Errorf("%q is nothing that a step has", line)
	}
	return nil
}

// duration reads "10 / 15 / 20, proportion, people 1 to 3, every 20 min, rounds of 8, gap 5 min".
func (r *cardReader) duration(parts []string) error {
	s := r.step
	lengths := strings.Split(parts[0], " / ")
	if len(lengths) != 3 {
		return fmt.Errorf("a step's time is low / likely / high: %q", parts[0])
	}
	for i, to := range []*planner.Minutes{&s.Time.Low, &s.Time.Likely, &s.Time.High} {
		m, err := minutes(lengths[i])
		if err != nil {
			return err
		}
		*to = m
	}
	for _, p := range parts[1:] {
		var err error
		switch {
		case p == "proportion":
			s.Grows = planner.InProportionToCovers
		case strings.HasPrefix(p, "rounds of "):
			s.Grows = planner.InRounds
			s.PerRound, err = strconv.Atoi(strings.TrimPrefix(p, "rounds of "))
		case strings.HasPrefix(p, "gap "):
			s.RoundGap, err = minutes(strings.TrimPrefix(p, "gap "))
		case strings.HasPrefix(p, "every "):
			s.Every, err = minutes(strings.TrimPrefix(p, "every "))
		case strings.HasPrefix(p, "people "):
			_, err = fmt.Sscanf(p, "people %d to %d", &s.Hands, &s.MaxHands)
		default:
			err = fmt.Errorf("a step's time has no %q", p)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (r *cardReader) where(parts []string) error {
	s := r.step
	s.Where = planner.State(parts[0])
	if !slices.Contains([]planner.State{planner.Counter, planner.Refrigerator, planner.Freezer, planner.Heat}, s.Where) {
		return fmt.Errorf("nothing is done in state %q", parts[0])
	}
	for _, p := range parts[1:] {
		if p != "cooks" {
			return fmt.Errorf("a place has no %q", p)
		}
		s.Cooks = true
	}
	return nil
}

// leaves reads "nothing" or a kind of food, then its space: "soup, 3000 ml, 1 flat, part-cooked". Food of
// kind none keeps on the counter but may still take space in the cold.
func (r *cardReader) leaves(parts []string) error {
	f := &r.step.Leaves
	if parts[0] == "nothing" {
		return nil
	}
	kind, err := safety.ParseKind(parts[0])
	if err != nil {
		return err
	}
	f.Kind, f.Perishable = kind, kind.Perishable()
	for _, p := range parts[1:] {
		n, unit, _ := strings.Cut(p, " ")
		switch {
		case p == "part-cooked":
			f.PartCooked = true
		case unit == "ml":
			f.Millilitres, err = strconv.Atoi(n)
		case unit == "flat":
			f.Flat, err = strconv.Atoi(n)
		default:
			err = fmt.Errorf("food has no %q", p)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// cool reads how what the step leaves is cooled: "stirred-ice-bath, metal, thick, 5 cm". Its time follows from that.
func (r *cardReader) cool(parts []string) error {
	if len(parts) != 4 {
		return fmt.Errorf("cooling is a place, what the vessel is made of, thick or thin, and how deep: %q", parts)
	}
	cm, err := strconv.ParseFloat(strings.TrimSuffix(parts[3], " cm"), 64)
	r.step.Cool = &planner.Cooling{Place: safety.Place(parts[0]), MadeOf: safety.Material(parts[1]),
		Consistency: safety.Consistency(parts[2]), DepthCM: cm}
	return err
}

// use reads the equipment a step takes: "oven 180, tolerance 10, shelves 2, for 8, shut", "burner 2", "uses
// roasting tin, 2 of them, for 8, through carve".
func use(word string, parts []string) (planner.Use, error) {
	u := planner.Use{}
	var err error
	switch word {
	case "oven":
		u.What = planner.AnOven
		if parts[0] == "off" {
			break
		}
		u.C, err = strconv.Atoi(parts[0])
	case "burner", "grill", "counter":
		u.What = map[string]planner.Equipment{"burner": planner.ABurner, "grill": planner.AGrill,
			"counter": planner.ACounter}[word]
		u.Amount, err = strconv.Atoi(parts[0])
	default:
		u.Name, u.What = parts[0], kindOfWare(parts[0])
		if u.What == "" {
			return u, fmt.Errorf("a home kitchen has no %q", parts[0])
		}
	}
	for _, p := range parts[1:] {
		if err != nil {
			break
		}
		switch first, rest, _ := strings.Cut(p, " "); {
		case first == "tolerance":
			u.Tolerance, err = strconv.Atoi(rest)
		case first == "shelves":
			u.Amount, err = strconv.Atoi(rest)
		case first == "through":
			u.Through = planner.StepKey(rest)
		case first == "for":
			u.For, err = strconv.Atoi(rest)
		case rest == "of them":
			u.Amount, err = strconv.Atoi(first)
		case p == "shut":
			u.Shut = true
		default:
			err = fmt.Errorf("equipment has no %q", p)
		}
	}
	return u, err
}

// kindOfWare finds a thing of the home kitchen by its name; empty when there is none.
func kindOfWare(name string) planner.Equipment {
	k := planner.HomeKitchen()
	for _, shelf := range []struct {
		what planner.Equipment
		all  []planner.Ware
	}{{planner.AnAppliance, k.Appliances}, {planner.AVessel, k.Vessels}, {planner.AHotPlace, k.HotPlaces}} {
		if slices.ContainsFunc(shelf.all, func(w planner.Ware) bool { return w.Name == name }) {
			return shelf.what
		}
	}
	return ""
}

// wait reads "refrigerator, least 8 h, longest 2 d, best 12 h to 1 d, worth until 36 h, held in oven 80".
func wait(parts []string) (planner.Wait, error) {
	w := planner.Wait{State: planner.State(parts[0])}
	switch w.State {
	case "straight":
		w.State = planner.Straight
	case planner.Counter, planner.Refrigerator, planner.Freezer, planner.Warm, planner.HotHold:
	default:
		return w, fmt.Errorf("food does not wait in state %q", parts[0])
	}
	for _, p := range parts[1:] {
		var err error
		switch {
		case strings.HasPrefix(p, "least "):
			w.Least, err = minutes(strings.TrimPrefix(p, "least "))
		case strings.HasPrefix(p, "longest "):
			w.Longest, err = minutes(strings.TrimPrefix(p, "longest "))
		case strings.HasPrefix(p, "worth until "):
			w.WorthUntil, err = minutes(strings.TrimPrefix(p, "worth until "))
		case strings.HasPrefix(p, "best "):
			from, to, both := strings.Cut(strings.TrimPrefix(p, "best "), " to ")
			if w.BestFrom, err = minutes(from); err == nil && both {
				w.BestUntil, err = minutes(to)
			}
		case strings.HasPrefix(p, "held in "):
			var u planner.Use
			word, rest, _ := strings.Cut(strings.TrimPrefix(p, "held in "), " ")
			if word != "oven" {
				word, rest = "uses", strings.TrimPrefix(p, "held in ")
			}
			u, err = use(word, []string{rest})
			w.Hold = &u
		case p == "held on a burner":
			w.Hold = &planner.Use{What: planner.ABurner, Amount: 1}
		default:
			err = fmt.Errorf("a wait has no %q", p)
		}
		if err != nil {
			return w, err
		}
	}
	return w, nil
}

func minutes(text string) (planner.Minutes, error) {
	if text == "0" {
		return 0, nil
	}
	d, err := measure.ParseDuration(text)
	return planner.Minutes(d.High), err
}

// finish checks what only the whole card can tell.
func (r *cardReader) finish() (Card, error) {
	c, d := r.card, &r.card.dish
	d.Key = planner.DishKey(planner.Key(d.Name))
	c.Key, c.dish = d.Key, *d
	switch {
	case d.Key == "" || d.Serves < 1 || len(d.Steps) == 0 || len(d.Ingredients) == 0:
		return c, fmt.Errorf("a card has a name, covers, ingredients and steps")
	case !slices.Contains(Courses, c.Course):
		return c, fmt.Errorf("no course %q", c.Course)
	case c.Ahead != "" && d.Step(c.Ahead) == nil:
		return c, fmt.Errorf("no step %q to make ahead", c.Ahead)
	}
	for _, diet := range c.Diets {
		if !slices.Contains(Diets, diet) {
			return c, fmt.Errorf("no diet %q", diet)
		}
	}
	for i := range d.Steps {
		s := &d.Steps[i]
		if s.Attention == "" || s.Where == "" {
			return c, fmt.Errorf("step %s: who minds it and where is it done?", s.Key)
		}
		for _, u := range s.Uses {
			if u.Through != "" && d.Step(u.Through) == nil {
				return c, fmt.Errorf("step %s: no step %q", s.Key, u.Through)
			}
		}
	}
	for _, in := range d.Ingredients {
		if in.Step != "" && d.Step(in.Step) == nil {
			return c, fmt.Errorf("%s: no step %q", in.Name, in.Step)
		}
	}
	return c, nil
}
