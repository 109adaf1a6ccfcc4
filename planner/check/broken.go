package check

import (
	"tureen/planner"
)

// Rule numbers a rule of package planner's documentation.
type Rule int

// The rules, as package planner's documentation numbers them.
const (
	// RuleComplete stands before the numbered rules: a plan has every task once and no other, with people of the party, in
	// whole minutes.
	RuleComplete Rule = iota
	RuleWaits
	RuleClocks
	RuleHands
	RuleEquipment
	RuleStorage
	RuleService
	RuleAnchors
	RuleClaims
	RulePast
	RuleMarks
	RuleLengths
	RuleKeeping
	RuleNights
)

// Broken is a rule that a plan breaks.
type Broken struct {
	Rule Rule            `json:"rule"`
	Task planner.TaskKey `json:"task,omitempty"`
	Text string          `json:"text"` // in a host's words
}
