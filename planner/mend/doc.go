// Package mend has the changes that a host would make so that there is a plan: each a sentence, the message that makes
// it, and itself. change.go has those of times and people, kitchen.go of what a kitchen has, dish.go of dishes and
// their waits. None touches a published limit. Which of them helps, package solve finds out.
package mend
