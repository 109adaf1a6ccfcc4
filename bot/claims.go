package bot

import (
	"context"
	"fmt"
	"sync"

	"tureen/bot/talk"
	"tureen/planner"
)

// Two people swap tasks when both have said so: the first names both tasks, the second presses, or says the same the
// other way round.

var swapCommand = command{talk.Command{Name: "task swap",
	Help:   "Swap a task of yours for one of somebody's, if they agree",
	Access: talk.CoHosts, TellsDone: true, Slow: true, Example: "/task swap task:pear-tart/roll for:pear-tart/bake",
	Options: []talk.Option{
		{Name: "task", Help: "which task of yours", Kind: talk.TaskOption, Required: true, Example: "pear-tart/roll"},
		{Name: "for", Help: "for which of theirs", Kind: talk.TaskOption, Required: true, Example: "pear-tart/bake"}}},
	taskSwap}

// swap is what somebody has offered: a task that is theirs, for another.
type swap struct {
	party      planner.PartyID
	mine, that planner.TaskKey
	by         planner.PersonKey
}

// swaps are the offers of today. They are not stored: after a restart one is asked again.
type swaps struct {
	mu   sync.Mutex
	open map[swap]bool
}

// offer notes an offer; taken takes it away again, and reports whether it was there.
func (s *swaps) offer(o swap) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.open == nil || len(s.open) > 1000 {
		s.open = map[swap]bool{}
	}
	s.open[o] = true
}

func (s *swaps) taken(o swap) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	was := s.open[o]
	delete(s.open, o)
	return was
}

func taskSwap(_ context.Context, t *Turn) (talk.Reply, error) {
	mine, w := t.theTask()
	that := taskOf(t.Party, t.values["for"].task)
	o := planner.Work{Task: that.Key}
	if had := t.Party.WorkOn(that.Key); had != nil {
		o = *had
	}
	x := t.Party.Person(o.Person)
	switch {
	case w.Person != t.Me.Key:
		return talk.Reply{}, talk.Refuse("/task list show:mine", "%s is not yours to swap.", t.taskName(mine.Key))
	case x == nil:
		return talk.Reply{}, talk.Refuse("/task claim task:"+string(that.Key), "Nobody has %s: claim it, and give yours "+
			"back.", t.taskName(that.Key))
	case x.Key == t.Me.Key:
		return talk.Reply{}, talk.Refuse("/task list show:mine", "Both are yours.")
	case w.Progress != planner.Waiting || o.Progress != planner.Waiting:
		return talk.Reply{}, talk.Refuse("/task list show:mine", "What has begun is swapped no more.")
	}
	for _, to := range []struct {
		task *planner.Task
		who  *planner.Person
	}{{mine, x}, {that, t.Me}} {
		if err := t.mayTake(to.task, to.who); err != nil {
			return talk.Reply{}, err
		}
	}
	if !t.bot.swaps.taken(swap{t.Party.ID, that.Key, mine.Key, x.Key}) {
		t.bot.swaps.offer(swap{t.Party.ID, mine.Key, that.Key, t.Me.Key})
		yes := t.button("Swap", "task swap", "task", string(that.Key), "for", string(mine.Key))
		yes.Style = talk.Main
		text := fmt.Sprintf("%s, %s would take %s from you, and give you %s.\nIs that fine? Nothing changes until you press.",
			x.Name, t.Me.Name, t.taskName(that.Key), t.taskName(mine.Key))
		rep := talk.Reply{Text: text, Buttons: []talk.Button{yes}, Next: "Next: only " + x.Name + " can press it"}
		if x.Chat != "" && t.Request.Accounts != nil {
			m := t.hear(x.Chat, text)
			m.Buttons = rep.Buttons
			rep.Told = []talk.Told{m}
		}
		return rep, nil
	}
	for _, to := range []struct {
		k   planner.TaskKey
		who planner.PersonKey
	}{{mine.Key, x.Key}, {that.Key, t.Me.Key}} {
		had := t.workOn(to.k)
		had.Person, had.By, had.AtNight = to.who, "", false
	}
	t.replan = true
	t.did("swapped %s with %s for %s", t.taskName(mine.Key), x.Name, t.taskName(that.Key))
	rep := t.aboutTask(fmt.Sprintf("Swapped: %s has %s now. It is yours: %s", x.Name, t.taskName(mine.Key),
		t.taskName(that.Key)), that.Key, "Next: /task list show:mine")
	return rep, nil
}

// offerOpen offers what nobody has to somebody who has nothing.
func (t *Turn) offerOpen(rep *talk.Reply) {
	const most = 5
	rows := t.bySession("open", t.taskRows("open"))
	sec := talk.Section{Title: "Open"}
	for _, r := range rows {
		if !r.free || r.verb == "" || len(sec.Lines) == most {
			continue
		}
		sec.Lines = append(sec.Lines, r.line)
		b := t.button("I do "+short(r.what), r.verb, "task", string(r.key))
		b.Line = len(sec.Lines)
		rep.Buttons = append(rep.Buttons, b)
	}
	if len(sec.Lines) == 0 {
		return
	}
	rep.Text += "\nThis is open, if you would like some."
	rep.Sections = []talk.Section{sec}
	if n := len(t.Party.Courses); n > 0 {
		rep.Next = fmt.Sprintf("Next: /task claim task:%s takes all of a course; a dish goes too", t.Party.Courses[n-1].Key)
	}
}
