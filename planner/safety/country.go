package safety

import (
	"slices"
	"strings"
)

// Country is where a party is, as far as an authority of its own publishes how long food keeps.
type Country string

// The countries whose authorities' figures are known here; elsewhere the strictest hold.
const (
	Elsewhere     Country = ""
	UnitedStates  Country = "US"
	UnitedKingdom Country = "UK"
	OtherCountry  Country = "other" // somebody has said that it is none of these
)

// By says whose figures hold for how long cooked food keeps: "the Food Standards Agency's figures (United Kingdom)".
func (c Country) By() string {
	switch c {
	case UnitedStates:
		return "foodsafety.gov's and USDA's figures (United States)"
	case UnitedKingdom:
		return "the Food Standards Agency's figures (United Kingdom)"
	}
	return "the strictest published figures"
}

// authorities are who publishes for a country.
var authorities = map[Country][]Authority{
	UnitedStates:  {"foodsafety.gov", "USDA FSIS", "US FDA", "FDA Food Code", "NCHFP"},
	UnitedKingdom: {"UK FSA"},
}

// zonesOf are the time zones of a country, by how their names begin: IANA Time Zone Database, zone1970.tab, from
// memory.
var zonesOf = map[Country][]string{
	UnitedKingdom: strings.Fields("Europe/London GB Europe/Belfast"),
	UnitedStates: strings.Fields(
		"US/ America/New_York America/Chicago America/Denver America/Los_Angeles America/Phoenix " +
			"America/Detroit America/Boise America/Indiana/ America/Kentucky/ America/North_Dakota/ America/Menominee " +
			"America/Anchorage America/Juneau America/Sitka America/Nome America/Adak America/Yakutat America/Metlakatla " +
			"Pacific/Honolulu EST5EDT CST6CDT MST7MDT PST8PDT"),
}

// CountryOf is the country that a time zone lies in; Elsewhere where no authority of it is known here.
func CountryOf(zone string) Country {
	for _, c := range []Country{UnitedKingdom, UnitedStates} {
		if zone != "" && slices.ContainsFunc(zonesOf[c], func(z string) bool {
			return z == zone || strings.HasSuffix(z, "/") && strings.HasPrefix(zone, z)
		}) {
			return c
		}
	}
	return Elsewhere
}

// RefrigeratorLimitIn is how long food of the kind keeps in the refrigerator by the authority of a country. For food
// that is not raw it is that authority's low figure: of "3 to 4 days" three. Where it publishes nothing for the kind,
// or the country is not known, it is [RefrigeratorLimit].
func RefrigeratorLimitIn(c Country, kind Kind) Limit {
	if kind == None {
		return Limit{}
	}
	var own []Limit
	for _, l := range limitsOf(kind).refrigerator {
		if slices.Contains(authorities[c], l.Authority) {
			if !kind.Raw() && l.From > 0 {
				l.Minutes = l.From
			}
			own = append(own, l)
		}
	}
	if len(own) == 0 {
		return RefrigeratorLimit(kind)
	}
	return strictest(own)
}

// InCountry is a text as it is said in a country: "[UK:…]" stands for that country alone, "[else:…]" for those that
// no such part before it names.
func InCountry(text string, c Country) string {
	var b strings.Builder
	done := false
	for {
		before, rest, found := strings.Cut(text, "[")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		part, after, _ := strings.Cut(rest, "]")
		of, says, _ := strings.Cut(part, ":")
		if of == string(c) || of == "else" && !done {
			b.WriteString(says)
		}
		if of == "else" {
			done = false
		} else {
			done = done || of == string(c)
		}
		text = after
	}
}
