// Package talk is one message and its answer, whatever the chat: it knows no party's contents and changes nothing.
//
// A person's message comes as a [Request] (request.go). Its line is read by the table of commands (command.go and
// option.go have the types, line.go reads, when.go days and times, formerly.go what was said in former words; gather.go
// makes one message of a text of many lines in a pipe). What is answered is a [Reply] of text, sections and buttons
// (reply.go), or a [Refusal], which says what was wrong and what to type instead (refusal.go). Package bot fills the
// table, the faces draw the replies.
package talk
