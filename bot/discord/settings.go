package discord

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"
)

// settings are the flags of "tureen serve", which "tureen doctor" takes too.
type settings struct {
	db, api, zone, backup, listen, key, shard, metrics string
	fetching, members                                  bool
	shards                                             int
}

// readSettings reads a command's flags. Where goOn is false, the command ends with the status.
func readSettings(name, help string, args []string, errs io.Writer) (c settings, status int, goOn bool) {
	flags := flag.NewFlagSet("tureen "+name, flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.StringVar(&c.db, "db", "tureen.db", "the database `file`; it is made when it is not there")
	flags.StringVar(&c.api, "api", "",
		"the `URL` of a stand-in for Discord on this machine, such as http://127.0.0.1:8080")
	flags.StringVar(&c.zone, "zone", "UTC",
		"the `time zone` of parties that are started without one")
	flags.StringVar(&c.backup, "backup", "",
		"a `folder` for a backup every day, a file a weekday (made by the process of shard 0)")
	flags.StringVar(&c.listen, "interactions", "",
		"an `address` such as 127.0.0.1:8080 to take interactions at by HTTP, instead of from the gateway; needs -public-key")
	flags.StringVar(&c.key, "public-key", "", "the application's public `key`, in hexadecimal digits")
	flags.BoolVar(&c.fetching, "fetch", false,
		"let /recipe read open addresses: public https pages alone, one at a time as people ask")
	flags.BoolVar(&c.members, "members", false,
		"hear at once who leaves a community; needs the Server Members Intent, on the application's page (Bot)")
	flags.IntVar(&c.shards, "shards", 0,
		"divide the communities into `N` shards, all in this process; 0: as Discord recommends")
	flags.StringVar(&c.shard, "shard", "",
		"serve only the shard `I/N`, as 0/4; other processes on this machine serve the others, with the same database")
	flags.StringVar(&c.metrics, "metrics", "",
		"an `address` on this machine, such as 127.0.0.1:9095, for /metrics and /health")
	flags.Usage = func() {
		fmt.Fprintf(errs, "tureen %s: %s The bot's token is read from %s.\n", name, help, TokenVariable)
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return c, 0, false
		}
		return c, badUse, false
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(errs, "tureen %s: %q is no flag.\n", name, flags.Arg(0))
		return c, badUse, false
	}
	return c, 0, true
}

// finding is one thing that serving needs, and what is wrong with it.
type finding struct {
	what string
	err  error // nil: nothing
}

// findings looks at everything that needs neither the database nor the network.
func (c *settings) findings() []finding {
	_, zoneErr := c.location()
	out := []finding{{"time zone " + c.zone, zoneErr}}
	add := func(wanted bool, what string, err error) {
		if wanted || err != nil {
			out = append(out, finding{what, err})
		}
	}
	_, err := c.share()
	if err == nil && c.listen != "" && (c.shards > 0 || c.shard != "") {
		err = errors.New("leave -shards and -shard out where interactions come by HTTP: there is one process then")
	}
	add(false, "shards", err)
	_, err = parseAPI(c.api)
	add(false, "API", err)
	if c.metrics != "" {
		add(true, "metrics at "+c.metrics, watchAddress(c.metrics))
	}
	if c.listen != "" {
		_, err = publicKey(c.key)
		add(true, "public key", err)
	}
	if c.backup != "" {
		add(true, "backups in "+c.backup, writable(c.backup))
	}
	return append(out, finding{"token in " + TokenVariable, tokenThere()})
}

func (c *settings) location() (*time.Location, error) {
	at, err := time.LoadLocation(c.zone)
	if err != nil {
		return nil, fmt.Errorf("there is no time zone %q; give one such as Europe/Lisbon", c.zone)
	}
	return at, nil
}

func (c *settings) share() (Share, error) { return parseShare(c.shards, c.shard) }

func tokenThere() error {
	if os.Getenv(TokenVariable) == "" {
		return fmt.Errorf("there is no bot token: copy it from the application's page at Discord (Bot, Reset Token) into %s",
			TokenVariable)
	}
	return nil
}

// writable reports whether files can be put into a folder.
func writable(folder string) error {
	f, err := os.CreateTemp(folder, "tureen-*")
	if err != nil {
		return fmt.Errorf("make the folder, or let tureen write into it: %w", err)
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}
