// Command tureen plans a hosted dinner in a chat.
package main

func main() {}
