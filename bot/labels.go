package bot

import (
	"context"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner/safety"
	"tureen/planner/sheet"
	"tureen/planner/words"
)

// planLabels are the labels for containers, to be written or printed.
func planLabels(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	labels := sheet.Labels(t.Party, t.Plan, t.format())
	rep := talk.Reply{
		Text: t.stale() + fmt.Sprintf("Put %s on the containers of %s.", words.Count(len(labels), "label"), t.Party.Name),
		Sections: append(sectionsOf(labels), talk.Section{Title: "For all of them",
			Lines: []string{safety.Caution, safety.AllergenCaution}}),
		Next: "Next: /plan prep has when each is made",
	}
	if len(labels) == 0 {
		rep.Text, rep.Sections = t.stale()+"Nothing waits in the refrigerator or the freezer.", nil
	}
	return rep, nil
}
