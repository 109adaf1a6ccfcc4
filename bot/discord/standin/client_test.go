package standin

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// modulesVariable names the folder in whose node_modules discord.js is.
const modulesVariable = "STANDIN_MODULES"

// TestIndependentClient has discord.js judge the stand-in: what another client can live with is not only
// what discordgo and we believe. It needs node, and discord.js in a folder named by STANDIN_MODULES.
func TestIndependentClient(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed")
	}
	modules := os.Getenv(modulesVariable)
	if modules == "" {
		t.Skipf("%s does not name a folder with discord.js", modulesVariable)
	}
	s := New(t)
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, node, "testdata/client.mjs")
	cmd.Env = append(os.Environ(), "STANDIN_URL="+s.URL, "STANDIN_TOKEN="+Token)
	var out, errs strings.Builder
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := cmd.Wait(); err != nil {
			t.Errorf("the client: %v\n%s\n%s", err, out.String(), errs.String())
		}
		for _, done := range []string{"ready", "registered", "completed", "late", "answered", "pressed"} {
			if !strings.Contains(out.String(), done+"\n") {
				t.Errorf("the client has not %s:\n%s\n%s", done, out.String(), errs.String())
			}
		}
	}()
	if !s.Online(30*time.Second) || !s.Wait(30*time.Second, func() bool { return s.registered == 1 }) {
		cancel()
		t.Fatal("the client did not register its command")
	}
	guild := s.Guild()
	p := s.Person("Ada", guild, s.Channel(guild))
	if a := p.Slash("count", nil, nil); a.Refused == "" {
		t.Error("a missing option was sent")
	}
	if a := p.Complete("count", nil, "room", "h"); len(a.Choices) != 1 || a.Choices[0].Value != "hall" {
		t.Errorf("completion: got %v", a.Choices)
	}
	if a := p.Slash("count", map[string]string{"covers": "1"}, nil); a.Message == nil ||
		a.Message.Content != "one cover, after a while" {
		t.Errorf("late: got %q", a.Text())
	}
	if list := p.WaitMessages(2, 10*time.Second); len(list) != 2 || !list[1].Ephemeral() {
		t.Errorf("late: got %d messages", len(list))
	}
	a := p.Slash("count", map[string]string{"covers": "8"}, nil)
	if a.Message == nil || a.Message.Content != "8 covers" || len(a.Message.Files) != 1 ||
		string(a.Message.Files[0].Data) != "plates" {
		cancel()
		t.Fatalf("at once: got %q", a.Text())
	}
	if b := p.Press(a.Message, "Noted"); b.Message == nil || b.Message.Content != "pressed" ||
		len(b.Message.Buttons()) != 0 {
		t.Errorf("pressed: got %q %q", b.Text(), b.Refused)
	}
}
