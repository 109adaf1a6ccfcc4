package planner

// Clash says why a party has no plan: requirements that cannot all be kept, and what would mend it.
type Clash struct {
	Requirements []Requirement `json:"requirements"`
	Mends        []Mend        `json:"mends,omitempty"`    // each verified by planning again; none of them touches a safety limit
	Unproved     bool          `json:"unproved,omitempty"` // time ran out: no plan was found, but there may be one
}

// Requirement is one of the things that clash, as a sentence a host understands.
type Requirement struct {
	Text  string  `json:"text"`
	Task  TaskKey `json:"task,omitempty"`
	Limit bool    `json:"limit,omitempty"` // a published safety limit: never relaxed
}

// Mend is a change that a host would make, or the smallest set of them that is enough.
type Mend struct {
	Text string `json:"text"`           // "Serve the dessert 15 minutes later"
	Do   string `json:"do,omitempty"`   // the message that makes the change, without the slash
	With []Mend `json:"with,omitempty"` // what has to be changed as well: no single change is enough
}

// Rule numbers a rule of the package's documentation.
type Rule int

// The rules, as the package's documentation numbers them.
const (
	RuleWaits Rule = iota + 1
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
)

// Broken is a rule that a plan breaks.
type Broken struct {
	Rule Rule    `json:"rule"`
	Task TaskKey `json:"task,omitempty"`
	Text string  `json:"text"` // in a host's words
}
