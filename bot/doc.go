// Package bot is the conversation: commands in, replies out.
//
// A face (package discord, package console) turns what a person typed or pressed into a [Request] and
// draws the [Reply] in its own way. A face never touches the store, and a command never knows its face.
//
// Where to start reading: command.go (what a command is), the files named after what they command
// (party.go, dish.go, task.go, ...), turn.go (how one request is answered).
package bot
