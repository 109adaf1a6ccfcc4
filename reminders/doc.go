// Package reminders says what is due, when and to whom, and sees to it that it arrives.
package reminders
