package standin

import (
	"strings"
	"sync"
	"unicode"
)

// What people have typed and what bots have written, over all servers of this process, so that tests can look for it
// where it must not stand, in logs.
var said struct {
	mu    sync.Mutex
	texts map[string]bool
}

// leastSaid is the fewest characters of a text that is remembered: shorter ones stand anywhere by chance.
const leastSaid = 10

// remember keeps the lines of a text that could be told apart from other words.
func remember(text string) {
	said.mu.Lock()
	defer said.mu.Unlock()
	if said.texts == nil {
		said.texts = map[string]bool{}
	}
	for _, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if chars(line) >= leastSaid && strings.ContainsFunc(line, unicode.IsLetter) {
			said.texts[line] = true
		}
	}
}

// Said lists what people have typed and bots have written, a line each.
func Said() (out []string) {
	said.mu.Lock()
	defer said.mu.Unlock()
	for s := range said.texts {
		out = append(out, s)
	}
	return out
}

// InteractionToken begins every interaction's token.
const InteractionToken = "token-of-"
