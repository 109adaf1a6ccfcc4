// An independent client (discord.js) that judges the stand-in: it logs in, registers a command, answers it
// at once, answers it late, and offers completions. It prints what it has done, a line each.
import { createRequire } from 'node:module';
const require = createRequire(process.env.STANDIN_MODULES + '/');
const { Client, GatewayIntentBits, Events, MessageFlags } = require('discord.js');

const client = new Client({
  intents: [GatewayIntentBits.Guilds],
  rest: { api: process.env.STANDIN_URL + '/api' },
  allowedMentions: { parse: [] },
});
client.once(Events.ClientReady, async () => {
  console.log('ready');
  await client.application.commands.set([{ name: 'count', description: 'count covers', options: [
    { type: 4, name: 'covers', description: 'how many', required: true, min_value: 1 },
    { type: 3, name: 'room', description: 'where', autocomplete: true }] }]);
  console.log('registered');
});
client.on(Events.InteractionCreate, async (i) => {
  if (i.isAutocomplete()) {
    await i.respond([{ name: 'Hall', value: 'hall' }]);
    console.log('completed');
    return;
  }
  if (i.isButton()) {
    await i.update({ content: 'pressed', components: [] });
    console.log('pressed');
    client.destroy();
    return;
  }
  const n = i.options.getInteger('covers');
  if (n === 1) {
    await i.deferReply();
    await i.editReply({ content: 'one cover, after a while' });
    await i.followUp({ content: 'and a word more', flags: MessageFlags.Ephemeral });
    console.log('late');
    return;
  }
  await i.reply({ content: n + ' covers', files: [{ attachment: Buffer.from('plates'), name: 'plates.txt' }],
    components: [{ type: 1, components: [{ type: 2, style: 1, label: 'Noted', custom_id: 'noted' }] }] });
  console.log('answered');
});
client.on(Events.Error, (e) => { console.log('error', e.message); });
await client.login(process.env.STANDIN_TOKEN);
