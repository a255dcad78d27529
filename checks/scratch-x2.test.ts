import { test } from 'vitest';
import { readFileSync } from 'node:fs';
import { readBuild } from '../core/build/read-build.ts';
import { nominal, prepareCar, realise } from '../core/car/realise.ts';
import { askNetwork, answerStore } from '../core/car/ask-network.ts';
import { words } from '../cli/words.ts';
test('x', () => {
  const b = readBuild(readFileSync('examples/two-string-coupe/build.yaml', 'utf8'), words);
  console.log('parts', b.parts.size, 'runs', b.runs.size, 'problems', b.problems.length);
  for (const p of b.problems.slice(0, 40)) console.log(p.place.line, p.message);
  const car = realise(prepareCar(b, words), nominal);
  const net = askNetwork(car, answerStore());
  for (const mode of b.modes.keys()) {
    const r: any = net.solve({ mode });
    if (r.outcome !== 'solved') { console.log(mode, JSON.stringify(r).slice(0, 1500)); continue; }
    if (mode === 'off') console.log(Object.keys(r), [...(r.currents?.keys?.() ?? [])].slice(0, 5));
    const v = (x: string, y: string) => { const m: any = net.meter({ mode }, x, y); return m.outcome === 'reads' ? m.voltage.toFixed(2) : m.why; };
    
    console.log(mode, 'bus', v('BUS_pos.stud_3', 'BUS_neg.stud_3'), '12V', v('BAT12.pos', 'BAT12.neg'), 'boxI', v('BOX_I.stud_1', 'chassis'), 'vcu', v('VCU.supply','VCU.ground'), 'loop', v('VCU.loop', 'chassis'), 'ins', v('VCU.insulation_ok', 'chassis'), 'coil', v('K_B_neg.coil_a', 'K_B_neg.coil_b'), 'FAN', v('FAN_L.supply','FAN_L.ground'), 'screen', v('SCREEN.supply','SCREEN.ground'), 'stop', v('STOP_R.supply','STOP_R.ground'), 'pilot', v('INLET.pilot','INLET.pe'),
      'cur', ['W_A_pos','W_B_pos','S_F_B','W_IL_pos','W_IR_pos','W_DC_pos','W_H_pos','W_G_pos','W_P_pos','E2','E5','E10','X1'].map((n) => { let c: any; try { c = r.currentOf(n); } catch (e) { try { c = r.currentOf(n + ".conductor"); } catch { c = NaN; } } return `${n}=${c.toFixed(2)}`; }).join(' '));
  }
});
