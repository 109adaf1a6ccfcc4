package standin

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// Limits that the platform's documentation states and its schema does not (August 2026): pages
// interactions/application-commands, interactions/receiving-and-responding, resources/message and
// components/reference.
const (
	maxCommands     = 100
	maxCommandChars = 8000
	maxContent      = 2000
	maxEmbedChars   = 6000
	maxFieldName    = 256
	maxFieldValue   = 1024
	maxActionRows   = 5
	maxRowButtons   = 5
	maxComponents   = 40
	maxModalParts   = 5
	maxChoices      = 25
	maxChoiceText   = 100
	maxAttachments  = 10
	maxFile         = 10 << 20
	maxRequest      = 25 << 20

	flagEphemeral    = 1 << 6
	flagComponentsV2 = 1 << 15
)

// Kinds of component that are named here.
const (
	kindRow = 1 + iota
	kindButton
	kindSelect
	kindInput
	kindUserSelect
	kindRoleSelect
	kindMentionable
	kindChannelSelect
	firstV2       = 9
	styleLink     = 5
	optSub        = 1
	optUser       = 6
	optGroup      = 2
	chatCommand   = 1
	callbackReply = 4
)

var commandName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// problems collects what is wrong.
type problems []string

func (p *problems) add(format string, args ...any) { *p = append(*p, fmt.Sprintf(format, args...)) }

func object(v any) map[string]any { m, _ := v.(map[string]any); return m }
func items(v any) []any           { l, _ := v.([]any); return l }
func text(v any) string           { s, _ := v.(string); return s }
func chars(s string) int          { return utf8.RuneCountInString(s) }
func whole(v any) int {
	if n, ok := v.(json.Number); ok {
		f, _ := n.Float64()
		return int(f)
	}
	return 0
}

// strictCommands checks a whole list of commands.
func strictCommands(list []any) []string {
	var p problems
	seen := map[string]bool{}
	count := map[int]int{}
	for _, v := range list {
		c := object(v)
		kind := chatCommand
		if c["type"] != nil {
			kind = whole(c["type"])
		}
		count[kind]++
		name := text(c["name"])
		if id := fmt.Sprint(kind, name); seen[id] {
			p.add("command %q stands twice", name)
		} else {
			seen[id] = true
		}
		if kind == chatCommand {
			p.named(c)
			p.options(items(c["options"]), name)
		}
		if n := commandChars(c); n > maxCommandChars {
			p.add("command %q has %d characters altogether", name, n)
		}
	}
	p.localised(list, "commands")
	if count[chatCommand] > maxCommands {
		p.add("%d commands", count[chatCommand])
	}
	return p
}

// named checks the name and the description of a command or an option.
func (p *problems) named(c map[string]any) {
	name := text(c["name"])
	if !commandName.MatchString(name) || strings.ToLower(name) != name {
		p.add("bad name %q", name)
	}
	if d := text(c["description"]); d == "" || chars(d) > 100 {
		p.add("%q has a description of %d characters", name, chars(d))
	}
	for lang, v := range object(c["name_localizations"]) {
		if s := text(v); !commandName.MatchString(s) || strings.ToLower(s) != s {
			p.add("bad name %q in %s", s, lang)
		}
	}
	for lang, v := range object(c["description_localizations"]) {
		if n := chars(text(v)); n == 0 || n > 100 {
			p.add("%q has a description of %d characters in %s", name, n, lang)
		}
	}
}

// localised wants what stands beside each other to be called differently in every language.
func (p *problems) localised(list []any, of string) {
	seen := map[string]bool{}
	for _, v := range list {
		for lang, name := range object(object(v)["name_localizations"]) {
			id := lang + " " + text(name)
			if seen[id] {
				p.add("%q of %q stands twice in %s", name, of, lang)
			}
			seen[id] = true
		}
	}
}

func (p *problems) options(list []any, of string) {
	if len(list) > 25 {
		p.add("%q has %d options", of, len(list))
	}
	p.localised(list, of)
	seen := map[string]bool{}
	subs, plain, optional := 0, 0, false
	for _, v := range list {
		o := object(v)
		name := text(o["name"])
		p.named(o)
		if seen[name] {
			p.add("option %q of %q stands twice", name, of)
		}
		seen[name] = true
		kind := whole(o["type"])
		if kind == optSub || kind == optGroup {
			subs++
			p.options(items(o["options"]), of+" "+name)
			continue
		}
		plain++
		required, _ := o["required"].(bool)
		if required && optional {
			p.add("option %q of %q is required and comes after one that is not", name, of)
		}
		optional = optional || !required
		choices := items(o["choices"])
		if auto, _ := o["autocomplete"].(bool); auto && len(choices) > 0 {
			p.add("option %q of %q has both choices and autocomplete", name, of)
		}
		p.localised(choices, name)
		names := map[string]bool{}
		for _, v := range choices {
			c := object(v)
			if n := text(c["name"]); names[n] {
				p.add("choice %q of %q stands twice", n, name)
			} else {
				names[n] = true
			}
		}
	}
	if subs > 0 && plain > 0 {
		p.add("%q mixes subcommands with options", of)
	}
}

// commandChars counts a command's names, descriptions and choices' values, at the longest localisation.
func commandChars(c map[string]any) int {
	n := longest(c, "name") + longest(c, "description")
	for _, v := range items(c["choices"]) {
		n += longest(object(v), "name") + chars(fmt.Sprint(object(v)["value"]))
	}
	for _, v := range items(c["options"]) {
		n += commandChars(object(v))
	}
	return n
}

func longest(c map[string]any, field string) int {
	n := chars(text(c[field]))
	for _, v := range object(c[field+"_localizations"]) {
		n = max(n, chars(text(v)))
	}
	return n
}

// strictMessage checks a message. whole says that it stands by itself; an edit may leave things out.
func strictMessage(m map[string]any, files int, entire bool) []string {
	var p problems
	flags := whole(m["flags"])
	content := text(m["content"])
	if n := chars(content); n > maxContent {
		p.add("content of %d characters", n)
	}
	embeds, components := items(m["embeds"]), items(m["components"])
	if entire && content == "" && len(embeds) == 0 && len(components) == 0 && files == 0 && m["poll"] == nil &&
		m["sticker_ids"] == nil {
		p.add("empty message")
	}
	p.embeds(embeds)
	p.components(components, flags&flagComponentsV2 != 0)
	if flags&flagComponentsV2 != 0 && (content != "" || len(embeds) > 0) {
		p.add("components v2 together with content or embeds")
	}
	if n := max(files, len(items(m["attachments"]))); n > maxAttachments {
		p.add("%d attachments", n)
	}
	p.mentions(m, entire || content != "")
	return p
}

// mentions wants allowed_mentions spelt out: without it everything that is typed may ping.
func (p *problems) mentions(m map[string]any, needed bool) {
	v, there := m["allowed_mentions"]
	if !there || v == nil {
		if needed {
			p.add("no allowed_mentions")
		}
		return
	}
	a := object(v)
	parse, listed := a["parse"].([]any)
	if !listed {
		p.add("allowed_mentions without a parse list")
	}
	for _, kind := range []string{"users", "roles"} {
		if len(items(a[kind])) == 0 {
			continue
		}
		for _, x := range parse {
			if text(x) == kind {
				p.add("allowed_mentions with both parse and %s", kind)
			}
		}
	}
}

func (p *problems) embeds(list []any) {
	sum := 0
	if len(list) > 10 {
		p.add("%d embeds", len(list))
	}
	for _, v := range list {
		e := object(v)
		n := chars(text(e["title"])) + chars(text(e["description"])) + chars(text(object(e["footer"])["text"])) +
			chars(text(object(e["author"])["name"]))
		for _, v := range items(e["fields"]) {
			f := object(v)
			name, value := strings.TrimSpace(text(f["name"])), strings.TrimSpace(text(f["value"]))
			if name == "" || chars(name) > maxFieldName || value == "" || chars(value) > maxFieldValue {
				p.add("embed field %q has a value of %d characters", name, chars(value))
			}
			n += chars(name) + chars(value)
		}
		if n == 0 && e["image"] == nil && e["thumbnail"] == nil {
			p.add("empty embed")
		}
		sum += n
	}
	if sum > maxEmbedChars {
		p.add("embeds of %d characters altogether", sum)
	}
}

func (p *problems) components(list []any, v2 bool) {
	rows, all := 0, 0
	ids := map[string]bool{}
	var walk func(v any, inRow bool)
	walk = func(v any, inRow bool) {
		c := object(v)
		all++
		kind := whole(c["type"])
		if id := text(c["custom_id"]); id != "" {
			if ids[id] {
				p.add("custom_id %q stands twice", id)
			}
			ids[id] = true
		}
		switch kind {
		case kindRow:
			rows++
			p.row(items(c["components"]))
		case kindButton:
			p.button(c)
		case kindSelect:
			p.selection(c)
		}
		if kind >= firstV2 && !v2 {
			p.add("component of type %d without the v2 flag", kind)
		}
		if !inRow && !v2 && kind != kindRow && kind < firstV2 {
			p.add("component of type %d outside an action row", kind)
		}
		for _, x := range items(c["components"]) {
			walk(x, kind == kindRow)
		}
		if x, ok := c["accessory"]; ok {
			walk(x, true)
		}
	}
	for _, v := range list {
		walk(v, false)
	}
	if !v2 && rows > maxActionRows {
		p.add("%d action rows", rows)
	}
	if all > maxComponents {
		p.add("%d components", all)
	}
}

func (p *problems) row(list []any) {
	buttons, selects := 0, 0
	for _, v := range list {
		switch k := whole(object(v)["type"]); {
		case k == kindButton:
			buttons++
		case k == kindSelect || k >= kindUserSelect && k <= kindChannelSelect:
			selects++
		}
	}
	switch {
	case len(list) == 0:
		p.add("an action row without anything in it")
	case buttons > maxRowButtons:
		p.add("%d buttons in a row", buttons)
	case selects > 1:
		p.add("%d selects in a row", selects)
	case selects > 0 && buttons > 0:
		p.add("a select beside a button")
	}
}

func (p *problems) button(c map[string]any) {
	id, url, label := text(c["custom_id"]), text(c["url"]), text(c["label"])
	if label == "" && c["emoji"] == nil {
		p.add("a button without label and emoji")
	}
	if whole(c["style"]) == styleLink {
		if url == "" || id != "" || !(strings.HasPrefix(url, "https://") || strings.HasPrefix(url, "http://") ||
			strings.HasPrefix(url, "discord://")) {
			p.add("a bad link button (%q)", url)
		}
		return
	}
	if id == "" || url != "" {
		p.add("button %q has the custom_id %q and the URL %q", label, id, url)
	}
}

func (p *problems) selection(c map[string]any) {
	opts := items(c["options"])
	seen := map[string]bool{}
	for _, v := range opts {
		value := text(object(v)["value"])
		if seen[value] {
			p.add("select value %q stands twice", value)
		}
		seen[value] = true
	}
	if len(opts) == 0 {
		p.add("a select without options")
	}
	if n := whole(c["max_values"]); n > len(opts) {
		p.add("a select of %d options with max_values %d", len(opts), n)
	}
}

// strictModal checks a modal's data.
func strictModal(m map[string]any) []string {
	var p problems
	parts := items(m["components"])
	if len(parts) == 0 || len(parts) > maxModalParts {
		p.add("a modal of %d components", len(parts))
	}
	if t := text(m["title"]); t == "" || chars(t) > 45 {
		p.add("a modal's title of %d characters", chars(t))
	}
	ids := map[string]bool{}
	for _, v := range parts {
		row := items(object(v)["components"])
		if whole(object(v)["type"]) == kindRow && len(row) != 1 {
			p.add("%d inputs in a modal's row", len(row))
		}
		for _, x := range row {
			id := text(object(x)["custom_id"])
			if ids[id] {
				p.add("custom_id %q stands twice", id)
			}
			ids[id] = true
		}
	}
	return p
}

// strictChoices checks what is offered for completion.
func strictChoices(m map[string]any) []string {
	var p problems
	list, ok := m["choices"].([]any)
	if !ok {
		p.add("completion without choices")
	}
	if len(list) > maxChoices {
		p.add("%d completion choices", len(list))
	}
	for _, v := range list {
		c := object(v)
		if n := chars(text(c["name"])); n == 0 || n > maxChoiceText {
			p.add("a completion's name of %d characters", n)
		}
		if s, ok := c["value"].(string); ok && (s == "" || chars(s) > maxChoiceText) {
			p.add("a completion's value of %d characters", chars(s))
		}
	}
	return p
}
