package console

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"tureen/planner/picture"
	"tureen/planner/sheet"
	"tureen/store"
)

// Plan is "tureen plan": it prints a party's plan, or draws it, and answers the exit status.
func Plan(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	file, dark := "", false
	c := partyCommand{name: "plan", help: "print a party's plan by day and person, or draw it", errs: errs,
		more: func(f *flag.FlagSet) {
			f.StringVar(&file, "png", "", "draw it into a `file`")
			f.BoolVar(&dark, "dark", false, "draw it on dark")
		}}
	snap, status, ok := c.load(ctx, args)
	switch {
	case !ok:
		return status
	case snap.Plan == nil:
		return c.fail("%s has no plan yet: /plan make in the chat makes one.", snap.Party.Name)
	case file != "":
		return c.draw(snap, file, dark, out)
	}
	for _, s := range sheet.Days(&snap.Party, snap.Plan, sheet.Only{}, sheet.Plain(snap.Party.Location())) {
		fmt.Fprintln(out, s.Title)
		for _, line := range s.Lines {
			fmt.Fprintln(out, indent+line)
		}
	}
	return 0
}

func (c *partyCommand) draw(snap store.Snapshot, file string, dark bool, out io.Writer) int {
	shade := picture.Light
	if dark {
		shade = picture.Dark
	}
	data, err := picture.PNG(sheet.Draw(&snap.Party, snap.Plan, time.Now(), sheet.Plain(snap.Party.Location())), shade)
	if err == nil {
		err = os.WriteFile(file, data, 0o644)
	}
	if err != nil {
		return c.fail("the picture cannot be written: %v", err)
	}
	fmt.Fprintf(out, "The plan of %s is drawn in %s.\n", snap.Party.Name, file)
	return 0
}
