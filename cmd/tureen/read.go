package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"tureen/bot/console"
	"tureen/planner/recipe"
)

// read prints what is understood of recipe files: text, pages or schema.org data. "-" is the standard input. With
// -json it prints a line of JSON for each: ingredients, steps, the acts beneath them, remarks and questions.
func read(_ context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	asJSON := len(args) > 0 && (args[0] == "-json" || args[0] == "--json")
	if asJSON {
		args = args[1:]
	}
	if len(args) == 0 || strings.HasPrefix(args[0], "-") && args[0] != "-" {
		fmt.Fprintln(errs, "usage: tureen read FILE… or tureen read -json FILE…")
		fmt.Fprintln(errs, "It prints what it understands of recipes: text, Markdown, pages and schema.org data;"+
			" - reads the standard input. -json prints a line of JSON for each.")
		return console.BadUse
	}
	status := 0
	for i, name := range args {
		if i > 0 && !asJSON {
			fmt.Fprintln(out)
		}
		if err := readOne(name, in, out, asJSON); err != nil {
			fmt.Fprintf(errs, "%s: %v\n", name, err)
			status = 1
		}
	}
	return status
}

func readOne(name string, in io.Reader, out io.Writer, asJSON bool) error {
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		in = f
	}
	data, err := io.ReadAll(io.LimitReader(in, recipe.MaxPage+1))
	if err != nil {
		return err
	}
	r, err := recipe.ReadFile(data)
	if err != nil {
		return err
	}
	text := r.Outline()
	if asJSON {
		line, err := r.JSON()
		if err != nil {
			return err
		}
		text = string(line) + "\n"
	}
	_, err = io.WriteString(out, text)
	return err
}
