package fetch

import (
	"net/netip"
	"net/url"
	"strings"
	"unicode"

	"tureen/bot/talk"
)

const maxAddress = 2000 // bytes

// What to do instead of an address that is not opened.
const instead = "Save the page and attach the file, or paste the recipe's text."

func refuse(text string) error { return &talk.Refusal{Text: text + " " + instead} }

// parse reads an address and refuses what is none of a public page.
func parse(text string) (*url.URL, error) {
	text = strings.TrimSpace(text)
	if len(text) > maxAddress || strings.ContainsFunc(text, func(r rune) bool {
		return unicode.IsControl(r) ||
			unicode.IsSpace(r) || r == '\\'
	}) {
		return nil, refuse("This is no address that I can open.")
	}
	u, err := url.Parse(text)
	if err != nil {
		return nil, refuse("This is no address that I can open.")
	}
	return u, check(u)
}

// check holds an address to the rules that can be told from its text.
func check(u *url.URL) error {
	host := strings.TrimSuffix(strings.ToLower(u.Hostname()), ".")
	switch {
	case u.Scheme != "https":
		return refuse("I open only addresses that begin with https://.")
	case u.User != nil:
		return refuse("I open no address with a name or password in it.")
	case u.Opaque != "" || host == "":
		return refuse("This is no address that I can open.")
	case u.Port() != "" && u.Port() != "443":
		return refuse("I open no address with a port in it.")
	}
	if a, err := netip.ParseAddr(host); err == nil {
		if !public(a) {
			return errPrivate
		}
		return nil
	}
	if !strings.Contains(host, ".") {
		return errPrivate
	}
	for _, end := range []string{".localhost", ".local", ".internal", ".intranet", ".lan", ".home", ".corp",
		".private", ".home.arpa", ".onion"} {
		if strings.HasSuffix(host, end) {
			return errPrivate
		}
	}
	return nil
}

var errPrivate = refuse("This address leads into a private network, and I open only public ones.")
