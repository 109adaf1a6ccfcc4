package bot

import (
	"context"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/picture"
	"tureen/planner/sheet"
)

func planPicture(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	shade := picture.Light
	if t.text("shade") == "dark" {
		shade = picture.Dark
	}
	return talk.Reply{Text: t.stale() + fmt.Sprintf("The plan of %s as a picture.", t.Party.Name),
		Files: t.picture(t.Plan, shade), Next: "Next: /plan show has it in words"}, nil
}

// picture draws a plan; none where it cannot be drawn, since all of it is told in words too.
func (t *Turn) picture(plan *planner.Plan, shade picture.Shade) []talk.File {
	drawn := sheet.Draw(t.Party, plan, t.Now, sheet.Plain(t.zone()))
	data, err := picture.PNG(drawn, shade)
	if err != nil {
		return nil
	}
	return []talk.File{{Name: string(planner.Key(t.Party.Name)) + "-plan.png", Type: "image/png", Data: data,
		Alt: drawn.String()}}
}
