package bot

import (
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner/check"
	"tureen/planner/sheet"
	"tureen/planner/words"
)

// chanceRuns is how often a plan is played through: enough for the chances to be right to a hundredth or so.
const chanceRuns = 3000

var chanceCommands = []command{
	{talk.Command{Name: "plan chances", Help: "How likely each course is on time, and what threatens it most",
		Access: talk.Onlookers, TellsDone: true, Slow: true, Example: "/plan chances"}, planChances},
}

func planChances(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	if broken := check.Plan(t.Party, t.Plan); len(broken) > 0 {
		return talk.Reply{}, talk.Refuse("/plan make", "The plan is out of date, so its chances would mean little: %s",
			words.Lower(broken[0].Text))
	}
	c := check.ChancesOf(t.Party, t.Plan, chanceRuns, 1)
	rep := talk.Reply{Text: fmt.Sprintf("The plan of %s, played through %d times: each length drawn from its range, "+
		"nobody in a hurry, nothing planned anew.",
		t.Party.Name, chanceRuns), Sections: sectionsOf(sheet.Chances(t.Party, t.Plan, c, t.format())),
		Next: "Next: /task why task:… for what fixes a task's time"}
	if len(c.Courses) == 0 {
		return talk.Reply{}, talk.Refuse("/course add", "No course is planned yet.")
	}
	worst := slices.MinFunc(c.Courses, func(a, b check.CourseChance) int { return int(1e6 * (a.OnTime - b.OnTime)) })
	if worst.Earlier != "" {
		rep.Next = fmt.Sprintf("Next: begin %s %s earlier; /task why task:%s says why it is when it is",
			t.taskName(worst.Earlier), words.Short(worst.Buffer), worst.Earlier)
	}
	return rep, nil
}
