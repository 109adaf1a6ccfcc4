package standin

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/json"
	"fmt"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// The platform's description of request bodies; its origin and licence stand in testdata/SCHEMA-LICENSE.txt.
//
//go:embed testdata/discord.schema.json.gz
var packedSchema []byte

// The definitions that bodies are validated by.
const (
	defCommand      = "ApplicationCommandUpdateRequest"
	defReply        = "CreateMessageInteractionCallbackRequest"
	defUpdate       = "UpdateMessageInteractionCallbackRequest"
	defAutocomplete = "ApplicationCommandAutocompleteCallbackRequest"
	defModal        = "ModalInteractionCallbackRequest"
	defFollowUp     = "IncomingWebhookRequestPartial"
	defEdit         = "IncomingWebhookUpdateRequestPartial"
	defMessage      = "MessageCreateRequest"
	defDM           = "CreatePrivateChannelRequest"
	defThread       = "CreateTextThreadWithoutMessageRequest"
)

// schemas compiles everything up front, since a Compiler is not safe for concurrent use.
var schemas = sync.OnceValues(func() (map[string]*jsonschema.Schema, error) {
	z, err := gzip.NewReader(bytes.NewReader(packedSchema))
	if err != nil {
		return nil, err
	}
	doc, err := jsonschema.UnmarshalJSON(z)
	if err != nil {
		return nil, err
	}
	closeObjects(doc)
	c := jsonschema.NewCompiler()
	if err := c.AddResource("discord.json", doc); err != nil {
		return nil, err
	}
	out := map[string]*jsonschema.Schema{}
	for _, name := range []string{defCommand, defReply, defUpdate, defAutocomplete, defModal, defFollowUp, defEdit,
		defMessage, defDM, defThread} {
		if out[name], err = c.Compile("discord.json#/$defs/" + name); err != nil {
			return nil, err
		}
	}
	return out, nil
})

// harmless are fields of a message that discord.js sends in every kind of message, and the platform ignores
// where they mean nothing.
var harmless = []string{"tts", "nonce", "enforce_nonce"}

// closeObjects forbids unknown fields: the platform ignores them, so that a misspelt one is lost in silence.
func closeObjects(v any) {
	switch v := v.(type) {
	case map[string]any:
		fields, props := v["properties"].(map[string]any)
		if fields["content"] != nil && fields["embeds"] != nil {
			for _, k := range harmless {
				if fields[k] == nil {
					fields[k] = map[string]any{}
				}
			}
		}
		_, open := v["additionalProperties"]
		if props && v["type"] == "object" && !open {
			v["additionalProperties"] = false
		}
		for _, x := range v {
			closeObjects(x)
		}
	case []any:
		for _, x := range v {
			closeObjects(x)
		}
	}
}

// bySchema validates a decoded body and answers what is wrong with it.
func bySchema(def string, body any) []string {
	all, err := schemas()
	if err != nil {
		return []string{"the schema does not load: " + err.Error()}
	}
	s := all[def]
	if s == nil {
		return []string{"no schema is called " + def}
	}
	if err := s.Validate(normalised(body)); err != nil {
		text := strings.Join(strings.Fields(err.Error()), " ")
		if len(text) > 600 {
			text = text[:600] + "…"
		}
		return []string{fmt.Sprintf("%s: %s", def, text)}
	}
	return nil
}

// normalised answers a copy of a body without the schema's two false alarms: permissions as a string, as
// the documentation has them, and an attachment's id as a number.
func normalised(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			switch {
			case k == "default_member_permissions":
				if s, ok := x.(string); ok {
					x = json.Number(s)
				}
			case k == "attachments":
				if list, ok := x.([]any); ok {
					var fixed []any
					for _, a := range list {
						a, _ := normalised(a).(map[string]any)
						if n, ok := a["id"].(json.Number); ok {
							a["id"] = n.String()
						}
						fixed = append(fixed, a)
					}
					x = fixed
				}
			default:
				x = normalised(x)
			}
			out[k] = x
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, x := range v {
			out[i] = normalised(x)
		}
		return out
	}
	return v
}

// decode reads JSON as the schema's validator wants it: numbers as json.Number.
func decode(data []byte) (any, error) { return jsonschema.UnmarshalJSON(bytes.NewReader(data)) }
