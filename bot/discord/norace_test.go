//go:build !race

package discord

const slowness = 1
