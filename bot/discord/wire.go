package discord

import (
	"encoding/json"
	"time"
)

// What travels to and from the platform, in its own words. The library's types are not used: they lack fields that are
// needed (nonce), send some that are not meant (parse: null), and do not decode all that comes.

// Kinds of interaction, of first answers, of components and of options: page
// interactions/receiving-and-responding and components/reference.
const (
	askCommand  = 2
	askPress    = 3
	askComplete = 4
	askModal    = 5

	answerMessage     = 4
	answerLater       = 5
	answerUpdateLater = 6
	answerUpdate      = 7
	answerChoices     = 8

	threadNews, threadPublic, threadPrivate = 10, 11, 12 // kinds of channel

	componentRow    = 1
	componentButton = 2
	componentSelect = 3

	stylePrimary   = 1
	styleSecondary = 2
	styleDanger    = 4
	styleLink      = 5

	optionSub     = 1
	optionString  = 3
	optionInteger = 4
	optionBoolean = 5
	optionUser    = 6
	optionFile    = 11

	flagEphemeral = 1 << 6
	flagSilent    = 1 << 12 // no notification: page resources/message
)

// interaction is something that a person did.
type interaction struct {
	at time.Time // when it came

	ID      string `json:"id"`
	App     string `json:"application_id"`
	Type    int    `json:"type"`
	Token   string `json:"token"`
	Guild   string `json:"guild_id"`
	Channel string `json:"channel_id"`
	Where   struct {
		Type   int    `json:"type"`
		Parent string `json:"parent_id"` // of a thread the channel, of a channel its category
	} `json:"channel"`
	Member *struct {
		User        person `json:"user"`
		Nick        string `json:"nick"`
		Permissions string `json:"permissions"`
	} `json:"member"`
	User *person `json:"user"`
	Data struct {
		Name     string        `json:"name"`
		Options  []askedOption `json:"options"`
		CustomID string        `json:"custom_id"`
		Values   []string      `json:"values"` // what was chosen from a list
		// Components are a form's, with what was filled in.
		Components []struct {
			Components []struct {
				CustomID string `json:"custom_id"`
				Value    string `json:"value"`
			} `json:"components"`
		} `json:"components"`
		Resolved struct {
			Attachments map[string]attachment `json:"attachments"`
			Users       map[string]person     `json:"users"` // who was picked
			Members     map[string]struct {
				Nick string `json:"nick"`
			} `json:"members"`
		} `json:"resolved"`
	} `json:"data"`
	Message *posted `json:"message"`
}

type person struct {
	ID         string `json:"id"`
	Username   string `json:"username"`
	GlobalName string `json:"global_name"`
}

type askedOption struct {
	Name    string          `json:"name"`
	Type    int             `json:"type"`
	Value   json.RawMessage `json:"value"`
	Focused bool            `json:"focused"`
	Options []askedOption   `json:"options"`
}

type attachment struct {
	Filename    string `json:"filename"`
	ContentType string `json:"content_type"`
	Size        int64  `json:"size"`
	URL         string `json:"url"`
}

// posted is a message that is there already.
type posted struct {
	ID     string `json:"id"`
	Author struct {
		ID string `json:"id"`
	} `json:"author"`
	Content    string      `json:"content"`
	Embeds     []embed     `json:"embeds"`
	Components []component `json:"components"`
	Flags      int         `json:"flags"`
	// Asked is whose doing the message answers; nil for one that came by itself.
	Asked *struct {
		ID   string `json:"id"`
		User person `json:"user"`
	} `json:"interaction_metadata"`
}

// message is one that we send.
type message struct {
	Content     string         `json:"content"`
	Embeds      []embed        `json:"embeds"`               // always there, so that an edit replaces them
	Components  []component    `json:"components"`           // likewise
	Attachments []attachedFile `json:"attachments,omitzero"` // empty: those that are there go; nil: they stay
	Flags       int            `json:"flags,omitempty"`
	Mentions    mentions       `json:"allowed_mentions"`
	Nonce       string         `json:"nonce,omitempty"`
	Enforce     bool           `json:"enforce_nonce,omitempty"`
}

// mentions says who may be notified: nobody but those listed, whatever the text says.
type mentions struct {
	Parse []string `json:"parse"` // never nil: null would allow everything
	Users []string `json:"users,omitempty"`
}

func nobody() mentions { return mentions{Parse: []string{}} }

type embed struct {
	Description string  `json:"description,omitempty"`
	Footer      *footer `json:"footer,omitempty"`
}

type footer struct {
	Text string `json:"text"`
}

type component struct {
	Type       int         `json:"type"`
	Style      int         `json:"style,omitempty"`
	Label      string      `json:"label,omitempty"`
	CustomID   string      `json:"custom_id,omitempty"`
	URL        string      `json:"url,omitempty"`
	Components []component `json:"components,omitempty"`

	Placeholder string     `json:"placeholder,omitempty"`
	Options     []listItem `json:"options,omitempty"`
}

// listItem is one of the things that a select offers.
type listItem struct {
	Label string `json:"label"`
	Value string `json:"value"`
}

type attachedFile struct {
	ID          int    `json:"id"`
	Filename    string `json:"filename"`
	Description string `json:"description,omitempty"`
}

// callback is the first answer to an interaction.
type callback struct {
	Type int `json:"type"`
	Data any `json:"data,omitempty"`
}

type choice struct {
	Name   string            `json:"name"`
	Value  string            `json:"value"`
	NameIn map[string]string `json:"name_localizations,omitempty"`
}

// slashCommand is a command, or an option of one, as the platform registers it.
type slashCommand struct {
	Type          int               `json:"type"`
	Name          string            `json:"name"`
	Description   string            `json:"description"`
	NameIn        map[string]string `json:"name_localizations,omitempty"` // by locale
	DescriptionIn map[string]string `json:"description_localizations,omitempty"`
	Required      bool              `json:"required,omitempty"`
	Autocomplete  bool              `json:"autocomplete,omitempty"`
	MaxLength     int               `json:"max_length,omitempty"`
	MinValue      *int              `json:"min_value,omitempty"`
	MaxValue      *int              `json:"max_value,omitempty"`
	Choices       []choice          `json:"choices,omitempty"`
	Options       []slashCommand    `json:"options,omitempty"`
	Contexts      []int             `json:"contexts,omitempty"`
	Integrations  []int             `json:"integration_types,omitempty"`
}
