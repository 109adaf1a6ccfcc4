// Package bot is the conversation: commands in, replies out.
//
// A face (package discord, package console) turns what a person typed or pressed into a [talk.Request]
// and draws the [talk.Reply] in its own way. A face never touches the store, and a command never knows its face.
//
// The commands are a table (table.go puts it together), made of one slice a file, in files named after what
// they command: party.go, dish.go, step.go, task.go, ... From this one definition come the slash commands,
// the terminal's grammar, the help and the completion. What a command is told by, and what holds of it, stands in its
// own [talk.Command]: no other file has a list of commands. Every option's text is checked in one place, by its kind
// (option.go, find.go; what names nothing of the party, in package talk).
//
// One request runs so (bot.go): find the command and the party in question, check the asker's rights, read
// the options, run the command on a copy of the party. A command that has changed something says so with
// [Turn.did]; then save.go holds the party to its rules, replan.go sees what becomes of the plan, and all of
// it is stored together with the reminders that follow. Where somebody else was faster, it runs again.
//
// What is refused says in one sentence why, and what to type instead ([talk.Refusal]); nothing is changed then.
package bot
