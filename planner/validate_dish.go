package planner

import (
	"slices"

	"tureen/planner/safety"
	"tureen/planner/words"
)

// ValidateDish lists what makes no sense in a dish and its steps; steps that wait for each other in a
// circle are found by [Party.Validate].
func ValidateDish(p *Party, d *Dish) []Problem {
	var out problems
	where := "dish " + string(d.Key)
	out.key(where, string(d.Key))
	out.text(where, "the dish's name", d.Name, MaxName, false)
	out.text(where, "who brings it", d.BroughtBy, MaxName, false)
	if p.Course(d.Course) == nil {
		out.add(where, "Put %s in a course of the party; there is no course %q.%s", d.Key, d.Course,
			didYouMean(string(d.Course), names(p.Courses, func(c Course) string { return string(c.Key) })))
	}
	if d.Serves < 1 || d.Serves > MaxCovers {
		out.add(where, "Say how many covers the amounts of %s are for, from 1 to %d, not %d.", d.Key, MaxCovers, d.Serves)
	}
	out.within(where, "the covers to make", d.Covers, 0, MaxCovers)
	if plates := names(p.Kitchen.Plates, func(w Ware) string {
		return w.Name
	}); d.Plate != "" && !slices.Contains(plates, d.Plate) {
		out.add(where, "Serve %s on plates or glasses of the kitchen; it has no %q.%s", d.Key, d.Plate,
			didYouMean(d.Plate, plates))
	}
	out.twice(where, "steps", stepNames(d))
	for _, g := range d.Ingredients {
		out.text(where, "an ingredient's name", g.Name, MaxName, true)
		if g.Step != "" && d.Step(g.Step) == nil {
			out.add(where, "Say which step needs %s first; %s has no step %q.%s", g.Name, d.Key, g.Step,
				didYouMean(string(g.Step), stepNames(d)))
		}
		out.within(where, "the grams of a piece of "+g.Name, g.Grams, 0, safety.MaxThawGrams)
		if !slices.Contains([]Grows{AsItsWordsTell, InProportion, InWholeOnes, LessThanThat}, g.Grows) {
			out.add(where, "Let %s grow in proportion, in whole ones or less; %q is none of them.", g.Name, g.Grows)
		}
		out.within(where, "the days that "+g.Name+" keeps", g.KeepDays, 0, 3650)
	}
	for i := range d.Steps {
		out = append(out, ValidateStep(p, d, &d.Steps[i])...)
	}
	return out
}

func stepNames(d *Dish) []string {
	return names(d.Steps, func(s Step) string { return string(s.Key) })
}

// ValidateStep lists what makes no sense in a step of a dish. The dish may be one that is still being
// typed and not yet on the party's menu.
func ValidateStep(p *Party, d *Dish, s *Step) []Problem {
	var out problems
	where := string(d.Key) + "/" + string(s.Key)
	out.key(where, string(s.Key))
	out.text(where, "what is done", s.Do, MaxText, false)
	out.text(where, "the sign that it is done", s.Until, MaxText, false)
	out.job(p, where, job{s.Attention, s.Hands, s.MaxHands, s.Time, s.Away, s.Who})
	if s.Attention == Touch && s.Every <= 0 {
		out.add(where, "Say how often it wants a touch, such as every 15 minutes.")
	}
	if s.Every < 0 || s.Every > 0 && s.Attention != Touch {
		out.add(where, "Leave the rhythm away, or make the attention touch.")
	}
	out.growth(p, d, where, s)
	out.cooling(where, s)
	if !slices.Contains([]State{Counter, Refrigerator, Freezer, Heat}, s.Where) {
		out.add(where, "Say where the food is meanwhile: counter, refrigerator, freezer or heat, not %q.", s.Where)
	}
	out.food(where, &s.Leaves)
	out.thawing(p, d, s)
	for i := range s.Uses {
		u := &s.Uses[i]
		out = append(out, ValidateUse(p, where, u)...)
		if u.Shut && s.Attention == Touch {
			out.add(where, "Leave the oven's door free to open, or make the attention watch: a touch opens it.")
		}
		for _, st := range u.Then {
			if st.After >= s.Time.Likely {
				out.add(where, "Change the oven's temperature within the step's %s, not after %s.",
					words.Length(s.Time.Likely), words.Length(st.After))
			}
		}
		if u.Through == "" {
			continue
		}
		switch {
		case u.Through == s.Key:
			out.add(where, "Leave the later step away: a use lasts to the end of its own step anyway.")
		case d.Step(u.Through) == nil:
			out.add(where, "Say to which later step of %s it stays occupied; there is no %q.%s", d.Key, u.Through,
				didYouMean(string(u.Through), stepNames(d)))
		case !comesAfter(d, u.Through, s.Key):
			out.add(where, "Let it stay occupied to a step that comes after %s; %s does not.", s.Key, u.Through)
		}
	}
	for i := range s.After {
		out.after(p, d, s, &s.After[i])
		if slices.ContainsFunc(s.After[:i], func(o After) bool {
			return o.Step == s.After[i].Step && o.Dish == s.After[i].Dish && o.FromStart == s.After[i].FromStart
		}) {
			out.add(where, "Say once, not twice, that it comes after %s.", s.After[i].Step)
		}
	}
	if s.Serve != nil {
		out.wait(p, where, s.Serve, &s.Leaves)
	}
	return out
}

func (ps *problems) growth(p *Party, d *Dish, where string, s *Step) {
	switch s.Grows {
	case Fixed, InProportionToCovers:
		if s.PerRound != 0 || s.RoundGap != 0 {
			ps.add(where, "Make it in rounds, or leave covers a round and the gap between rounds away.")
		}
	case InRounds:
		if s.PerRound < 1 {
			ps.add(where, "Say for how many covers one round is enough.")
			return
		}
		if s.RoundGap < 0 || s.RoundGap > MaxLength {
			ps.add(where, "Give the gap between rounds as 0 minutes or more.")
		}
	default:
		ps.add(where, "Let the time stay the same, grow in proportion, or go in rounds; %q is none of them.", s.Grows)
	}
	if n := p.Fit(d, s).Rounds; n > MaxRounds && d.Makes(p) <= MaxCovers {
		ps.add(where, "Make more covers a round: %d covers would take %d rounds, and %d are the most.", d.Makes(p), n,
			MaxRounds)
	}
}

// cooling complains about a step that cools but whose time or food no estimate can be made of.
func (ps *problems) cooling(where string, s *Step) {
	c := s.Cool
	if c == nil {
		return
	}
	if _, err := safety.CoolTime(safety.Pot{Place: c.Place, MadeOf: c.MadeOf, Consistency: c.Consistency,
		DepthCM: c.DepthCM, Litres: 1}); err != nil {
		ps.add(where, "Say how it cools: %v.", err)
	}
}

func (ps *problems) food(where string, f *Food) {
	switch known := safety.Kinds(); {
	case f.Kind != "" && !slices.Contains(known, f.Kind):
		ps.add(where, "Name a kind of food that the limits know, not %q.%s", f.Kind,
			didYouMean(string(f.Kind), names(known, func(k safety.Kind) string { return string(k) })))
	case f.Perishable && f.Kind == "":
		ps.add(where,
			"Say what kind of food it leaves, such as cooked or custard: its limit in the refrigerator hangs on it.")
	case f.Perishable && f.Kind == safety.None:
		ps.add(where, "Name the kind of perishable food, or say that it keeps on the counter.")
	}
	if f.PartCooked && !f.Perishable {
		ps.add(where, "Say that part-cooked food is perishable, and of what kind.")
	}
	ps.within(where, "the millilitres of space", f.Millilitres, 0, maxLitres*1000)
	ps.within(where, "the flat places", f.Flat, 0, 50)
}

// job is what steps and chores have in common.
type job struct {
	attention       Attention
	hands, maxHands int
	time            Span
	away            bool
	who             Who
}

func (ps *problems) job(p *Party, where string, j job) {
	if !slices.Contains([]Attention{Hands, Watch, Touch, Unattended}, j.attention) {
		ps.add(where, "Say what it asks of people: hands, watch, touch or unattended, not %q.", j.attention)
	}
	switch t := j.time; {
	case t.Low < 1 || t.High < 1 || t.Likely < 1:
		ps.add(where, "Give times of 1 minute or more; %d, %d and %d are not.", t.Low, t.Likely, t.High)
	case t.High > MaxLength:
		ps.add(where, "Give a time of at most 7 days, not %s.", words.Length(t.High))
	case t.Low > t.Likely || t.Likely > t.High:
		ps.add(where, "Give the shortest time first, then the likely and the longest; %d, %d, %d are out of order.", t.Low,
			t.Likely, t.High)
	}
	if j.attention == Hands {
		ps.within(where, "the hands it needs", j.hands, 0, MaxHands)
		if j.maxHands != 0 && j.maxHands < max(j.hands, 1) || j.maxHands > MaxHands {
			ps.add(where, "Let the most hands be at least those it needs, %d, and at most %d.", max(j.hands, 1), MaxHands)
		}
		working := 0
		for i := range p.People {
			if p.People[i].Role != Onlooker {
				working++
			}
		}
		if working > 0 && j.hands > working {
			ps.add(where, "Find more people or ask for fewer hands: it needs %d, and %d cook.", j.hands, working)
		}
	} else if j.hands != 0 || j.maxHands != 0 {
		ps.add(where, "Leave the number of hands away, or make the attention hands.")
	}
	if j.away && (j.attention == Watch || j.attention == Touch) {
		ps.add(where, "Let its people stay at home: nobody can watch from out of the house.")
	}
	if j.who.Person != "" {
		switch x := p.Person(j.who.Person); {
		case x == nil:
			ps.add(where, "Name somebody of the party; %q is not one of them.%s", j.who.Person,
				didYouMean(string(j.who.Person), peopleNames(p)))
		case x.Role == Onlooker:
			ps.add(where, "Choose somebody else, or make %s a co-host: onlookers are given no work.", x.Key)
		case j.who.Skill != "" && !slices.Contains(x.Skills, j.who.Skill):
			ps.add(where, "Note that %s has the skill %q, or leave one of the two away.", x.Key, j.who.Skill)
		}
	} else if j.who.Skill != "" {
		var skills []string
		for i := range p.People {
			if p.People[i].Role != Onlooker {
				skills = append(skills, p.People[i].Skills...)
			}
		}
		if !slices.Contains(skills, j.who.Skill) {
			ps.add(where, "Note who has the skill %q: nobody has it so far.%s", j.who.Skill, didYouMean(j.who.Skill, skills))
		}
	}
}
