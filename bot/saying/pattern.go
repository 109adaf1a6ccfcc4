package saying

import (
	"slices"
	"strings"
)

// A pattern is words with [what may be missing], (one|or another), <a set of phrases> and {slots}. It fits a clause
// from its first word to its last; between, only words that mean nothing are passed over.

type nodeKind int

const (
	literal nodeKind = iota
	slot
	sequence
	either
	optional
)

type node struct {
	kind nodeKind
	text string
	of   []node
}

// compile reads a pattern. literals are its words.
func compile(text string, sets map[string]node) (n node, literals []string) {
	p := &compiler{text: text, sets: sets}
	n = p.alternatives(0)
	return n, p.literals
}

type compiler struct {
	text     string
	at       int
	sets     map[string]node
	literals []string
}

// alternatives reads up to a closing mark, or to the end.
func (p *compiler) alternatives(until byte) node {
	var all []node
	cur := node{kind: sequence}
	for p.at < len(p.text) {
		c := p.text[p.at]
		p.at++
		switch {
		case c == until:
			until = 0
			all = append(all, cur)
			return node{kind: either, of: all}
		case c == ' ':
		case c == '|':
			all, cur = append(all, cur), node{kind: sequence}
		case c == '(':
			cur.of = append(cur.of, p.alternatives(')'))
		case c == '[':
			cur.of = append(cur.of, node{kind: optional, of: []node{p.alternatives(']')}})
		case c == '<' || c == '{':
			end := strings.IndexAny(p.text[p.at:], ">}")
			name := p.text[p.at : p.at+end]
			p.at += end + 1
			if c == '{' {
				cur.of = append(cur.of, node{kind: slot, text: name})
				break
			}
			set, ok := p.sets[name]
			if !ok {
				panic("phrases.tsv: no set " + name)
			}
			cur.of = append(cur.of, set)
		default:
			from := p.at - 1
			for p.at < len(p.text) && !strings.ContainsRune(" |()[]<>{}", rune(p.text[p.at])) {
				p.at++
			}
			cur.of = append(cur.of, node{kind: literal, text: p.text[from:p.at]})
			p.literals = append(p.literals, p.text[from:p.at])
		}
	}
	if until != 0 {
		panic("phrases.tsv: nothing closes a mark in " + p.text)
	}
	return node{kind: either, of: append(all, cur)}
}

// always are the words that whatever fits a node has.
func (n *node) always() (out []string) {
	switch n.kind {
	case literal:
		return []string{n.text}
	case sequence:
		for i := range n.of {
			out = append(out, n.of[i].always()...)
		}
	case either:
		for i := range n.of {
			out = both(out, n.of[i].always(), i == 0)
		}
	}
	return out
}

// both are the words that stand in two lists; the first of all is taken as it is.
func both(a, b []string, first bool) []string {
	if first {
		return b
	}
	return slices.DeleteFunc(slices.Clone(a), func(w string) bool { return !slices.Contains(b, w) })
}

// mostSteps bounds the work on one clause, whatever it says.
const mostSteps = 4000

// matcher holds one pattern against one clause.
type matcher struct {
	reader *reader
	tokens []token
	id     string // of the meaning
	steps  int
}

// match finds how a node fits from a place on, and goes on with what comes after it; it answers whether all of it fits.
func (m *matcher) match(n *node, at int, b binding, then func(int, binding) bool) bool {
	if m.steps++; m.steps > mostSteps {
		return false
	}
	switch n.kind {
	case literal:
		for ; at < len(m.tokens); at++ {
			if m.tokens[at].word == n.text {
				return then(at+1, b)
			}
			if !m.tokens[at].fill {
				return false
			}
		}
		return false
	case slot:
		for at < len(m.tokens) {
			if m.reader.slot(m, n.text, at, b, then) {
				return true
			}
			if !m.tokens[at].fill {
				return false
			}
			at++
		}
		return n.text == "any" && then(at, b)
	case optional:
		return m.match(&n.of[0], at, b, then) || then(at, b)
	case either:
		for i := range n.of {
			if m.match(&n.of[i], at, b, then) {
				return true
			}
		}
		return false
	}
	return m.sequence(n.of, at, b, then)
}

func (m *matcher) sequence(of []node, at int, b binding, then func(int, binding) bool) bool {
	if len(of) == 0 {
		return then(at, b)
	}
	return m.match(&of[0], at, b, func(at int, b binding) bool { return m.sequence(of[1:], at, b, then) })
}

// whole reports whether only words that mean nothing are left from a place on.
func (m *matcher) whole(at int) bool {
	for ; at < len(m.tokens); at++ {
		if !m.tokens[at].fill {
			return false
		}
	}
	return true
}
