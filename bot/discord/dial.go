package discord

import (
	"context"
	"crypto/tls"
	"errors"
	"math/rand/v2"
	"net"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// line is a session's connection to the gateway, held by us as well: the library waits for HELLO without a
// limit and with its lock held, and can be freed only by closing the connection under it.
type line struct {
	mu   sync.Mutex
	conn net.Conn
}

func (l *line) hold(c net.Conn) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.conn = c
}

// cut closes the connection, if there is one.
func (l *line) cut() {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.conn != nil {
		l.conn.Close()
	}
}

// dialer makes connections to the gateway, where the token is sent too: only to the platform, in TLS, or to
// a stand-in on loopback. A connection from which nothing comes for a while is dead.
func (l *line) dialer(standIn bool, silence, within time.Duration) *websocket.Dialer {
	keep := func(c net.Conn, err error) (net.Conn, error) {
		if err != nil {
			return nil, err
		}
		c = &quietConn{c, silence}
		l.hold(c)
		return c, nil
	}
	plain := &net.Dialer{Timeout: within}
	secure := &tls.Dialer{NetDialer: plain}
	return &websocket.Dialer{
		HandshakeTimeout: within,
		NetDialContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			host, _, err := net.SplitHostPort(addr)
			if err != nil || !standIn || !isLoopback(host) {
				return nil, errForeign
			}
			return keep(plain.DialContext(ctx, network, addr))
		},
		NetDialTLSContext: func(ctx context.Context, network, addr string) (net.Conn, error) {
			host, _, err := net.SplitHostPort(addr)
			if err != nil || standIn && !isLoopback(host) || !standIn && !strings.HasSuffix(host, ".discord.gg") {
				return nil, errForeign
			}
			return keep(secure.DialContext(ctx, network, addr))
		},
	}
}

// quietConn fails a read when nothing has come for a while.
type quietConn struct {
	net.Conn
	silence time.Duration
}

func (c *quietConn) Read(p []byte) (int, error) {
	if err := c.SetReadDeadline(time.Now().Add(c.silence)); err != nil {
		return 0, err
	}
	return c.Conn.Read(p)
}

const tokenRefused = "Discord refuses the bot's token. Copy it again from the application's page (Bot, Reset Token) " +
	"into " + TokenVariable + "."

// fatal reports whether the gateway's reason for closing will be the same next time: a refused token, a
// wrong shard, an unknown version or intents that are not allowed. Trying on would spend the day's 1000
// IDENTIFYs, after which the platform resets the token.
func fatal(err error) (why string, yes bool) {
	var c *websocket.CloseError
	if !errors.As(err, &c) {
		return "", false
	}
	switch c.Code {
	case 4004:
		return tokenRefused, true
	case 4010, 4011:
		return "Discord asks for other shards: the bot is in too many communities for so few. Start tureen again without " +
			"-shards, so that it takes as many as Discord recommends.", true
	case 4012:
		return "Discord no longer speaks the gateway's version that tureen uses. Update tureen.", true
	case 4013, 4014:
		return "Discord does not allow the intents that tureen asks for. Leave -members out, or allow the Server Members " +
			"Intent on the application's page (Bot).", true
	}
	return "", false
}

// isShards reports whether the gateway has closed because it asks for other shards.
func isShards(err error) bool {
	var c *websocket.CloseError
	return errors.As(err, &c) && (c.Code == 4010 || c.Code == 4011)
}

// jitter varies a pause, so that many bots do not come back at one instant.
func jitter(d time.Duration) time.Duration {
	return d/2 + rand.N(d/2+1)
}
