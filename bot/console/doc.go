// Package console is the terminal's face of the conversation: [Chat] reads messages from a person at a
// terminal, or one a line from a pipe, and prints the replies and the reminders that fall due.
//
// Besides messages ("/dish add …") it understands lines of its own:
//
//	NAME> message     speaks as that person
//	press 2           presses a button of what was printed last
//	channel supper    speaks in the channel of that name from now on; alone: where it began
//	wait 2h           moves the clock on, and prints the reminders that fall due on the way
//	wait until 18:00  the same, to a time
//	# a remark        is for whoever reads along
//
// The clock is the real one until it is moved or set, and then the one that was set. Where to start
// reading: chat.go (the flags and the loop), line.go (what a line may be), draw.go (how a reply looks),
// export.go (a party as JSON, for other programs).
package console
