package recipe

import (
	"math"
	"slices"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// ready makes steps of the work that the ingredient lines ask for (onions, finely chopped), one for each part of the
// dish that the lines name.
func (m *maker) ready() {
	var parts []string
	for _, g := range m.r.Ingredients {
		if !slices.Contains(parts, g.Section) {
			parts = append(parts, g.Section)
		}
	}
	for _, part := range parts {
		var of []int
		line := 0
		for i := range m.r.Ingredients {
			g := &m.r.Ingredients[i]
			if g.Section != part || m.soaks(i) || !g.madeReady() {
				continue
			}
			if line == 0 {
				line = g.From.Line
			}
			of = append(of, i)
		}
		if len(of) > 0 {
			m.r.Steps = append(
				m.r.Steps,
				Step{Do: m.r.toReady(of), Section: part, From: Place{line, "the ingredient lines"},
					Attention: planner.Hands, Where: planner.Counter, Ready: true, clauses: len(of), Parts: of},
			)
		}
	}
}

// soaks makes a step of a wait that a line asks for: "red lentils, soaked overnight".
func (m *maker) soaks(i int) bool {
	g := &m.r.Ingredients[i]
	all := times.Lengths(g.Preparation)
	if len(all) == 0 {
		all = times.Lengths(g.Note)
	}
	if len(all) != 1 || !words.Has(g.Preparation, "soaked") && !words.Has(g.Note, "soaked") {
		return false
	}
	m.r.Steps = append(m.r.Steps, Step{Do: "Soak the " + g.Name, Section: g.Section, From: Place{g.From.Line, g.From.Text},
		Attention: planner.Unattended, Where: planner.Counter, Ready: true, kind: doing.Standing, key: "soak",
		Time: all[0].Duration, clauses: 1, Parts: []int{i}})
	return true
}

// garnish puts what a line says is for the table into the last step, where no other takes it in.
func (r *Reading) garnish() {
	if len(r.Steps) == 0 {
		return
	}
	last := &r.Steps[len(r.Steps)-1]
	for i := range r.Ingredients {
		if g := &r.Ingredients[i]; (g.Optional || words.Has(g.Text, toServe...)) &&
			!slices.ContainsFunc(r.Steps, func(s Step) bool { return slices.Contains(s.Parts, i) && !s.Ready }) {
			last.Parts = append(last.Parts, i)
		}
	}
}

// toServe are words of lines that are for the table.
var toServe = phrases.Phrases("to serve")

// madeReady reports whether the line asks for work before the method begins. What comes out of a tin is cut already.
func (g *Ingredient) madeReady() bool {
	return g.Preparation != "" && worksByHand(g.Preparation) && !g.Packed()
}

// worksByHand reports whether a preparation is work: chopped is, softened or bought ground is not.
func worksByHand(prep string) bool { return words.Has(prep, workOfLines...) }

var workOfLines = phrases.Phrases("work of lines")

// Our guess at what an ingredient line asks for of which the table of verbs knows nothing: minutes. Common practice, no
// source.
const readyLow, readyHigh = 1, 3

// readyHands is how long a line's preparation takes by hand: what is peeled, then diced, by the table and the amount.
func (g *Ingredient) readyHands() (out [2]float64) {
	f, known := food.Find(g.Name)
	for _, w := range words.Apart(words.Small(g.Preparation)) {
		row := method.Verb(w)
		if row == nil || !known {
			continue
		}
		if s := method.Sense(row.Name, f.Class); s != nil && s.Attention == string(planner.Hands) &&
			(s.Per == "kg" || s.Per == "piece") {
			n := amountOf(g, s.Per)
			out[0], out[1] = out[0]+n*s.Minutes[0], out[1]+n*s.Minutes[1]
		}
	}
	if out[1] == 0 {
		return [2]float64{readyLow, readyHigh}
	}
	return [2]float64{min(out[0], mostHands), min(max(out[1], readyLow), mostHands)}
}

// What a cook takes for all the work of a recipe grows with the root of what its acts take one by one: much is done
// while other things are, and who does little still gets things out and clears away. Fitted to the preparation times
// that some three hundred published recipes state, which stand in fives.
const handsAtTwenty, handsIn = 17.5, 5

// inAll is how long work by hand takes in all whose acts take so many minutes one by one.
func inAll(sum float64) float64 {
	return max(math.Round(handsAtTwenty*math.Sqrt(sum/20)/handsIn), 1) * handsIn
}

// guessHands gives work by hand its time: what the recipe says, and for the rest the table of verbs, of which the whole
// is taken as the recipe states its preparation, where that is off by more than a third, or as a cook takes for it.
func (r *Reading) guessHands() {
	guess, said, hot := 0.0, 0.0, 0.0
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind == doing.OverBurner {
			hot += float64(s.Time.Low+s.Time.High) / 4 // who stands at a pan does some
		}
		if !s.guessesHands() {
			continue
		}
		if s.Ready {
			s.hands = [2]float64{}
			for _, i := range s.Parts {
				h := r.Ingredients[i].readyHands()
				s.hands[0], s.hands[1] = s.hands[0]+h[0], s.hands[1]+h[1]
			}
		}
		said += float64(s.said.Low+s.said.High) / 2
		guess += (s.hands[0] + s.hands[1]) / 2
	}
	scale := 1.0
	if left := float64(r.Prep.Low) - said; left > 0 && guess > 0 {
		if guess > left*4/3 || guess < left*2/3 {
			scale = left / guess
		}
	} else if guess > 0 {
		scale = max(inAll(guess+said+hot)-said-hot, guess/2) / guess
	}
	over := 0.0 // what the steps so far have more than their share, by whole minutes
	for i := range r.Steps {
		s := &r.Steps[i]
		if !s.guessesHands() {
			continue
		}
		if s.said.High > 0 && s.hands[1] <= float64(s.said.High)/2 {
			s.Time = s.said
			continue
		}
		low := min(max(int(s.hands[0]*scale+0.5), 1), mostOfAStep)
		high := max(int(math.Round((s.hands[0]+s.hands[1])*scale-2*over))-low, low)
		high = min(high, mostOfAStep)
		over += float64(low+high)/2 - (s.hands[0]+s.hands[1])/2*scale
		s.Time, s.Guessed = plus(measure.Duration{Low: low, High: high}, s.said), true
	}
}

// fitCooking gives the longest step on heat whose time is a guess what is left of the cooking time that the recipe
// states, or of its time in all, where the guess is off by more than a third.
func (r *Reading) fitCooking() {
	guess, rest, hands := -1, 0, 0
	for i := range r.Steps {
		s := &r.Steps[i]
		t := (s.Time.Low + s.Time.High) / 2
		switch {
		case !s.kind.Heats():
			hands += t
		case s.Guessed && !s.told && (guess < 0 || s.Time.High > r.Steps[guess].Time.High):
			if guess >= 0 {
				rest += (r.Steps[guess].Time.Low + r.Steps[guess].Time.High) / 2
			}
			guess = i
		default:
			rest += t
		}
	}
	if guess < 0 {
		return
	}
	said := r.Cook
	if said.High == 0 && r.Total.High > 0 {
		said, rest = r.Total, rest+hands
	}
	low, high, was := said.Low-rest, said.High-rest, r.Steps[guess].Time
	if low < 5 || high > 12*hour || high*3 < was.High*4 && high*3 > was.High*2 {
		return
	}
	if low >= 20 {
		low, high = (low+2)/5*5, (high+2)/5*5
	}
	r.Steps[guess].Time = measure.Duration{Low: low, High: high}
}

// mostOfAStep is the most minutes of work by hand that a step is guessed at: a preparation that is stated at hours has
// waits in it. Common practice, no source.
const mostOfAStep = 75

// guessesHands reports whether a step is work by hand whose time was not told by our own export.
func (s *Step) guessesHands() bool {
	return (s.kind == doing.ByHand || s.kind == doing.Serving) && !s.told
}
