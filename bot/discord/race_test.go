//go:build race

package discord

// slowness is how much longer things may take under the race detector, where planning takes twenty times as
// long and only the stories without much of it are told.
const slowness = 8
