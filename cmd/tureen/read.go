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

// read prints what is understood of recipe files: text, pages or schema.org data. "-" is the standard input.
func read(_ context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") && args[0] != "-" {
		fmt.Fprintln(errs, "usage: tureen read FILE…")
		fmt.Fprintln(errs, "It prints what it understands of recipes: text, Markdown, pages and schema.org data;"+
			" - reads the standard input.")
		return console.BadUse
	}
	status := 0
	for i, name := range args {
		if i > 0 {
			fmt.Fprintln(out)
		}
		if err := readOne(name, in, out); err != nil {
			fmt.Fprintf(errs, "%s: %v\n", name, err)
			status = 1
		}
	}
	return status
}

func readOne(name string, in io.Reader, out io.Writer) error {
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
	_, err = io.WriteString(out, r.Outline())
	return err
}
