// Package discord is the face that tureen shows on Discord.
//
// The transport is its lower half, and the only place that knows the library discordgo (gateway.go, rest.go):
// guard.go stands between the library and the network, dial.go between it and the gateway. They treat the
// library's known faults; each treatment says which.
//
// The face is its upper half. register.go makes slash commands of the bot's; receive.go makes requests of what people
// type, press.go of what they press, direct.go of what they do where no community is. draw.go makes messages of
// replies, page.go cuts long ones, buttons.go lays out what can be pressed; answer.go sees that they arrive in time.
// modal.go opens forms for long texts, mention.go reads a recipe that somebody writes to the bot, thread.go threads,
// deliver.go brings reminders, members.go notices who has left. endpoint.go takes interactions over HTTP instead.
//
// serve.go puts it to work: settings.go reads the flags, shard.go divides the communities among sessions and
// processes, metrics.go tells how it goes, doctor.go and permission.go see beforehand whether it would.
package discord
