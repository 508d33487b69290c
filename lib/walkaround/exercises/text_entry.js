// A labelled text box that says everything typed as it is typed, and the whole text again with the Enter key.
//
// Each message holds the whole text and goes out at once, in order. The widgets' own way to synchronise a value waits
// until the kernel has taken the one before: on a slow computer Enter would overtake what was typed.
export default {
  render({model, el}) {
    const label = document.createElement('label');
    const input = document.createElement('input');
    input.type = 'text';
    input.autocomplete = 'off';
    input.spellcheck = false;
    input.placeholder = model.get('placeholder');
    input.style.width = model.get('width');
    input.value = model.get('value');
    label.append(model.get('label'), ' ', input);
    label.setAttribute('data-lm-suppress-shortcuts', 'true'); // JupyterLab leaves the keys to the box
    el.classList.add('walkaround-text-entry');
    el.append(label);

    const say = (what) => {
      model.set('value', input.value); // for a view of this box that is shown later
      model.send({[what]: input.value});
    };
    input.addEventListener('input', () => say('typed'));
    input.addEventListener('keydown', (event) => {
      event.stopPropagation();
      // An Enter that ends the composing of a character, or that is held down, is no answer.
      if (event.key === 'Enter' && !event.isComposing && !event.repeat) say('entered');
    });
    const follow = () => {
      if (input.value !== model.get('value')) input.value = model.get('value');
    };
    model.on('change:value', follow);
    return () => model.off('change:value', follow);
  },
};
