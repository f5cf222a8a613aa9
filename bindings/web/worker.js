// Answers one question after another away from the page, so that typing never waits. `Satline` and `Refused` stand above.
let satline;
onmessage = async ({ data: { bytes, id, ask } }) => {
    if (bytes) {
        try {
            const module = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
            satline = await Satline.load(await new Response(module).arrayBuffer());
            postMessage({ names: satline.names() });
        } catch (error) {
            postMessage({ broken: String(error) });
        }
        return;
    }
    try {
        postMessage({ id, page: satline.page(ask) });
    } catch (error) {
        postMessage({ id, refusal: error instanceof Refused ? error.toJSON() : { input: null, message: String(error) } });
    }
};
