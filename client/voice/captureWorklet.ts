/** Runs beside the sound: hands every few milliseconds of the microphone on to the page, one channel. */
declare const registerProcessor: (name: string, processor: new () => Processor) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
interface Processor {
  process(inputs: readonly (readonly Float32Array[])[]): boolean;
}

const BLOCK = 1024;

class Capture extends AudioWorkletProcessor implements Processor {
  #block = new Float32Array(BLOCK);
  #filled = 0;

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    for (const sample of inputs[0]?.[0] ?? []) {
      this.#block[this.#filled] = sample;
      this.#filled += 1;
      if (this.#filled < BLOCK) continue;
      this.port.postMessage(this.#block, [this.#block.buffer]);
      this.#block = new Float32Array(BLOCK);
      this.#filled = 0;
    }
    return true;
  }
}

registerProcessor('capture', Capture);
