package safety

// CookTo is the temperature in the middle to which food of the kind is cooked
// by the consumer charts, the highest where a kind covers several rows. Where
// the chart gives a sign instead of a figure (clams open, flesh opaque) the
// limit has no temperature and its Note holds the sign. Kinds that are eaten
// uncooked have none. A guest who likes beef pink is below this limit: it is
// for people to decide and for tureen to say.
func CookTo(kind Kind) Limit {
	if kind == None {
		return Limit{}
	}
	return strictest(limitsOf(kind).cook)
}

// RestAfterCooking is the rest that is part of the cooking rule for whole cuts
// of red meat (3 minutes); other kinds have none.
func RestAfterCooking(kind Kind) Limit {
	if kind != RedMeat {
		return Limit{}
	}
	return limit("rest-red-meat")
}

// CookToIn is [CookTo] by the authority of a country. The UK's has one figure for the middle of all food, and it stands
// there for what the charts cook as hot or hotter. Below that are fish and whole cuts, for which it has no figure.
func CookToIn(c Country, kind Kind) Limit {
	l := CookTo(kind)
	if core := limit("cook-uk-core"); c == UnitedKingdom && l.Heated && l.TempC >= core.TempC {
		return core
	}
	return l
}

// CookPorkTo is the temperature in the middle for whole cuts of pork, which the UK's authority wants cooked through.
func CookPorkTo(c Country) Limit {
	if c == UnitedKingdom {
		return limit("cook-uk-core")
	}
	return limit("cook-pork")
}

// Reheat is the temperature to which leftovers are heated again by the authority of a country: 74 °C (165 °F), in the
// UK 70 °C for 2 minutes.
func Reheat(c Country) Limit {
	if c == UnitedKingdom {
		return limit("cook-uk-core")
	}
	return limit("reheat-us")
}

// CookStuffingTo is the temperature in the middle of a stuffing by the authority of a country.
func CookStuffingTo(c Country) Limit {
	if c == UnitedKingdom {
		return limit("cook-uk-core")
	}
	return limit("cook-stuffing")
}

// PartialCooking is the rule against browning meat, chilling it and finishing
// it later: its Note says what is allowed.
func PartialCooking() Limit { return limit("partial-cook") }
