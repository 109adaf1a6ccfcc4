package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tureen/bot/console"
)

func TestRead(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	soup := write("soup.txt", "Carrot soup\nServes 4\n\n1 kg carrots, sliced\n1 l stock\n\n"+
		"Simmer the carrots in the stock for 25 minutes. Blend.")
	cake := write("cake.html", `<html><script type="application/ld+json">{"@type":"Recipe","name":"Apple cake",`+
		`"recipeYield":8,"recipeIngredient":["3 apples"],"recipeInstructions":"Bake at 170 °C for 50 minutes."}`+
		`</script></html>`)
	picture := write("picture.jpg", "\xff\xd8\xff\xe0")
	for _, c := range []struct {
		args      []string
		in        string
		status    int
		out, errs string
	}{
		{[]string{soup}, "", 0, "Simmer the carrots in the stock for 25 minutes [watch, 25 min; burner", ""},
		{[]string{cake}, "", 0, "Apple cake, for 8", ""},
		{[]string{"-"}, "Tea\nServes 2\n\n2 bags tea\n\nBoil water, 5 min. Pour.", 0, "Tea, for 2", ""},
		{[]string{picture, soup}, "", 1, "Carrot soup, for 4", "This is a picture"},
		{[]string{filepath.Join(dir, "none.txt")}, "", 1, "", "none.txt"},
		{nil, "", console.BadUse, "", "usage: tureen read FILE"},
	} {
		var out, errs bytes.Buffer
		status := run(context.Background(), append([]string{"read"}, c.args...), strings.NewReader(c.in), &out, &errs)
		if status != c.status || !strings.Contains(out.String(), c.out) || !strings.Contains(errs.String(), c.errs) ||
			c.errs == "" && errs.Len() > 0 {
			t.Errorf("%q: status %d, want %d\n%s\n%s", c.args, status, c.status, out.String(), errs.String())
		}
	}
}
