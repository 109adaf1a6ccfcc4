// Package bot is the conversation: commands in, replies out.
//
// A face (package discord, package console) turns what a person typed or pressed into a [Request] and
// draws the [Reply] in its own way. A face never touches the store, and a command never knows its face.
//
// The commands are a table (table.go puts it together), made of one slice a file, in files named after what
// they command: party.go, dish.go, step.go, task.go, ... From this one definition come the slash commands,
// the terminal's grammar (line.go), the help and the completion; every option's text is checked in one place,
// by its kind (option.go, when.go, find.go).
//
// One request runs so (bot.go): find the command and the party in question, check the asker's rights, read
// the options, run the command on a copy of the party. A command that has changed something says so with
// [Turn.did]; then save.go holds the party to its rules, replan.go sees what becomes of the plan, and all of
// it is stored together with the reminders that follow. Where somebody else was faster, it runs again.
//
// What is refused says in one sentence why, and what to type instead (refusal.go); nothing is changed then.
package bot
