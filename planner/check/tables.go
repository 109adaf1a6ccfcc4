package check

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"sync"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Tables names the tables that rules 2 and 12 rest on: published limits, foods, and words of steps. Another name means
// that a plan which was made with it may break what it kept then. Warnings that no rule rests on are not among them.
var Tables = sync.OnceValue(func() string {
	h := sha256.New()
	for _, text := range []string{safety.Tables(), food.Tables(), trace.Tables()} {
		h.Write([]byte(text))
	}
	return hex.EncodeToString(h.Sum(nil)[:6])
})

// ByTables lists what a plan breaks of the rules that rest on tables.
func ByTables(p *planner.Party, plan *planner.Plan) []Broken {
	return slices.DeleteFunc(Plan(p, plan), func(b Broken) bool { return b.Rule != RuleClocks && b.Rule != RuleKeeping })
}
