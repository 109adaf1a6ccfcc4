// Package discord is the face that tureen shows on Discord.
//
// The transport is its lower half, and the only place that knows the library discordgo (gateway.go, rest.go):
// guard.go stands between the library and the network, dial.go between it and the gateway. They treat the
// library's known faults; each treatment says which.
//
// The face is its upper half. register.go makes slash commands of the bot's; receive.go makes requests of what
// people type, press.go of what they press, direct.go of what they do where no community is. draw.go makes
// messages of replies, page.go cuts long ones, buttons.go lays out what can be pressed; answer.go sees that they
// arrive in time. modal.go opens forms for long texts, thread.go threads, deliver.go brings reminders.
// endpoint.go takes interactions over HTTP instead.
package discord
