package planner

import "slices"

// PartyKind is how a party eats: which tasks it needs beside its dishes, and how much of each, follow from it.
type PartyKind string

// The kinds of party.
const (
	Plated      PartyKind = "plated"       // each cover gets a plate, course by course
	FamilyStyle PartyKind = "family style" // bowls and platters at the table
	Buffet      PartyKind = "buffet"       // guests help themselves
	Barbecue    PartyKind = "barbecue"     // the same, out of doors
	Brunch      PartyKind = "brunch"
	Standing    PartyKind = "standing" // bites in the hand, nobody sits
)

// PartyKinds lists them.
var PartyKinds = []PartyKind{Plated, FamilyStyle, Buffet, Barbecue, Brunch, Standing}

// Known says whether it is one of them, or nothing that anybody has said.
func (k PartyKind) Known() bool { return k == "" || slices.Contains(PartyKinds, k) }

// Helped says whether guests help themselves from what stands out.
func (k PartyKind) Helped() bool { return k == Buffet || k == Barbecue || k == Standing }
