package scale

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// Cooling says what to know of the steps that cool, and of cooked food that goes into the refrigerator warm: what the
// careful estimate of package safety makes of it beside the published two stages. It never says that food is safe.
func Cooling(p *planner.Party, d *planner.Dish) []string {
	var out []string
	for i := range d.Steps {
		s := &d.Steps[i]
		if s.Cool != nil {
			if fit := p.Fit(d, s); fit.Cool != nil && !fit.Cool.Within {
				out = append(out, fmt.Sprintf("%s (%s): %s", s.Do, litres(fit.Millilitres), words.Lower(fit.Cool.Advice)))
			}
			continue
		}
		if text := warm(p, d, s); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// Warm lists the steps of a dish whose food goes into the refrigerator warm, as [Cooling] says it of them.
func Warm(p *planner.Party, d *planner.Dish) []planner.StepKey {
	var out []planner.StepKey
	for i := range d.Steps {
		if s := &d.Steps[i]; s.Cool == nil && warm(p, d, s) != "" {
			out = append(out, s.Key)
		}
	}
	return out
}

// Amounts below which nothing is said of cooling, and the depth that is taken where nobody has said how deep food
// stands.
const (
	littleMillilitres = 750
	takenDepthCM      = 5
	coolsBy           = 30 // minutes on the counter after which small food is no longer hot; common practice, no source
	// from here a pot that is left to cool is still hot whenever it goes in; common practice, no source
	potMillilitres = 2000
)

// warm is the sentence about a step whose food goes into the refrigerator warm; empty when it does not, or is too
// little.
func warm(p *planner.Party, d *planner.Dish, s *planner.Step) string {
	ml := Volume(p, d, s)
	if ml < littleMillilitres || !s.Leaves.Perishable || !cooledAfter(d, s) ||
		!comesHot(d, s, 0, 0, ml >= potMillilitres) {
		return ""
	}
	pot := safety.Pot{MadeOf: safety.Metal, DepthCM: takenDepthCM, Litres: min(float64(ml)/1000, 100),
		Consistency: safety.Thick, Place: safety.PlaceRefrigerator}
	c, err := safety.CoolTime(pot)
	if err != nil || c.Within {
		return ""
	}
	return fmt.Sprintf("%s goes into the refrigerator warm after %q, about %s: %d cm deep it takes about %s in there by "+
		"a careful estimate, and the published limit is 6 h (%s). "+
		"Cool it first (/dish cool step:%s/%s how:ice bath).", d.Name, s.Do, litres(ml), takenDepthCM,
		words.Short((c.Whole+30)/60*60), c.Limit.Source, d.Key, s.Key)
}

// chilledAfter says whether what a step leaves goes into the refrigerator next.
func cooledAfter(d *planner.Dish, s *planner.Step) bool {
	if s.Serve != nil && s.Serve.State == planner.Refrigerator {
		return true
	}
	return slices.ContainsFunc(d.Steps, func(next planner.Step) bool {
		if next.Cool != nil {
			return false
		}
		return next.Where == planner.Refrigerator && follows(&next, s, "") || follows(&next, s, planner.Refrigerator)
	})
}

// follows says whether a step comes after another one, in a state; the empty one stands for any.
func follows(next, s *planner.Step, state planner.State) bool {
	return slices.ContainsFunc(next.After, func(a planner.After) bool {
		return a.Dish == "" && a.Step == s.Key && !a.FromStart && (state == "" || a.Wait.State == state)
	})
}

// Words of cooling that is more than leaving a pot to stand, of food that is divided small, and of cooking that leaves
// no pot, or one.
var (
	coldWords   = strings.Fields("ice iced cold chill")
	coolWords   = strings.Fields("cool")
	spreadWords = strings.Fields("water stir tray rack")
	smallWords  = strings.Fields("glass ramekin cup jar mould portion bowl")
	dryWords    = strings.Fields("fry sear brown toast saute sauté grill roast bake")
	wetWords    = strings.Fields("simmer boil stew braise poach cook")
)

// comesHot says whether a step's food was cooked in it or before it and is still hot: with no word of cooling and
// little time since, or as a whole pot, which hours on the counter do not cool. The pot must be large, and nothing said
// of ice.
func comesHot(d *planner.Dish, s *planner.Step, since planner.Minutes, depth int, large bool) bool {
	say := portion.Words(s.Do)
	if s.Cool != nil || s.Where == planner.Refrigerator || s.Where == planner.Freezer {
		return false
	}
	if anyOf(say, coldWords) || anyOf(say, coolWords) && (!large || anyOf(say, spreadWords)) {
		return false
	}
	large = large && !anyOf(say, smallWords)
	if s.Cooks {
		return since < coolsBy || large && inPot(s) && (anyOf(say, wetWords) || !anyOf(say, dryWords))
	}
	if since += s.Time.Likely; depth > len(d.Steps) {
		return false
	}
	return slices.ContainsFunc(s.After, func(a planner.After) bool {
		from := d.Step(a.Step)
		if a.Dish != "" || a.FromStart || from == nil || a.Wait.State == planner.Refrigerator ||
			a.Wait.State == planner.Freezer {
			return false
		}
		return comesHot(d, from, since+a.Wait.Least, depth+1, large)
	})
}

// inPot says whether a step cooks on a burner, or in a deep vessel in the oven.
func inPot(s *planner.Step) bool {
	return slices.ContainsFunc(s.Uses, func(u planner.Use) bool {
		return u.What == planner.ABurner || u.What == planner.AVessel &&
			anyOf(portion.Words(u.Name), strings.Fields("pot stockpot casserole saucepan"))
	})
}

// Volume is about how much a step leaves for the covers that its dish is made for, in millilitres: as the step says, or
// what the dish's ingredients weigh where it does not.
func Volume(p *planner.Party, d *planner.Dish, s *planner.Step) int {
	ml := float64(s.Leaves.Millilitres)
	if ml == 0 {
		for i := range d.Ingredients {
			if grams, ok := portion.Grams(&d.Ingredients[i]); ok && !d.Ingredients[i].Optional {
				ml += grams
			}
		}
	}
	return int(ml*float64(d.Makes(p))/float64(max(d.Serves, 1)) + 0.5)
}

func anyOf(have, list []string) bool {
	return slices.ContainsFunc(have, func(w string) bool { return slices.Contains(list, w) })
}
