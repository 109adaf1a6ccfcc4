// Package reminders says what is due, when and to whom, and sees to it that it arrives.
//
// Its first half is pure: [For] reads a party and its plan and answers every reminder that follows from
// them (task.go, oven.go, day.go), gathered by session (gather.go), with quiet hours kept (quiet.go) and in words for a
// lock screen (words.go). The store keeps them as rows, and what follows the plan there is told by their keys.
//
// Its second half sends them: a [Dispatcher] is woken by cron (clock.go), asks the store what is due and
// hands each as a [Note] to a [Deliverer] (dispatch.go). Nothing is lost, and nothing comes twice where
// either side can tell.
package reminders
