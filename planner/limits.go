package planner

import (
	"slices"

	"tureen/planner/safety"
)

// What the published limits are for this party: whose figures hold follows from where it is, and from who sits at the
// table.

// AtRisk says whether a guest is one who falls ill more easily, by what was noted of them: pregnant, vulnerable, an
// infant. The limits are the strictest then.
func (p *Party) AtRisk() bool {
	return slices.ContainsFunc(p.Guests, func(g Guest) bool {
		return slices.ContainsFunc(g.Diets, func(d string) bool { return safety.Diet(d).IsAdvice() })
	})
}

// CounterLimit is how long food that spoils may be out of the cold at the party's room temperature.
func (p *Party) CounterLimit() safety.Limit { return safety.CounterLimit(float64(p.AirC())) }

// AirC is the temperature in °C of the air where food stands.
func (p *Party) AirC() int {
	if p.RoomTemperatureC == 0 {
		return UsualRoomC
	}
	return p.RoomTemperatureC
}

// RefrigeratorLimit is how long food of a kind keeps in the refrigerator by the authority of the party's country, or by
// the strictest where the country is not known or a guest is at risk.
func (p *Party) RefrigeratorLimit(k safety.Kind) safety.Limit {
	if p.AtRisk() {
		return safety.RefrigeratorLimit(k)
	}
	return safety.RefrigeratorLimitIn(p.AuthoritiesOf(), k)
}

// AuthoritiesOf is the country whose authorities' figures hold: as somebody has said, else where the time zone lies.
func (p *Party) AuthoritiesOf() safety.Country {
	if p.Country != "" {
		return p.Country
	}
	return safety.CountryOf(p.Zone)
}
