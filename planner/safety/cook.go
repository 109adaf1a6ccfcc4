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

// Reheat is the temperature to which leftovers are heated again: 74 °C (165 °F).
func Reheat() Limit { return limit("reheat-us") }

// PartialCooking is the rule against browning meat, chilling it and finishing
// it later: its Note says what is allowed.
func PartialCooking() Limit { return limit("partial-cook") }
